# SPDX-License-Identifier: MIT
"""A PostgreSQL server of its own for a test: nothing of the system's is changed, nothing of it stays.

The server's programs are copied into a temporary folder, with links to the rest of the installation, and the extension is
put beside them: PostgreSQL looks for its own files from where its program is. Root cannot
run it, so as root it runs as the user postgres. It listens on a socket in that folder and on no port.
"""
import os
import pathlib
import pwd
import shutil
import signal
import subprocess
import tempfile
import time

USER = "postgres"


def config(what):
    programs = [shutil.which("pg_config"), "/usr/lib/postgresql/15/bin/pg_config"]
    program = next(p for p in programs[::-1] if p and os.path.exists(p))
    return pathlib.Path(subprocess.run([program, f"--{what}"], check=True, text=True, stdout=subprocess.PIPE).stdout.strip())


class Server:
    rights = () if os.stat("/").st_mode & 1 else (
        "--securebits=+no_setuid_fixup", "--inh-caps=+dac_read_search", "--ambient-caps=+dac_read_search")

    def __init__(self, build, options=()):
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="ferrule_sql_"))
        self.process = None
        try:
            self.start(build, options)
        except BaseException:
            self.stop()
            raise

    def under(self, path):
        return self.folder / path.relative_to("/")

    def run(self, *command, **more):
        """As a user who may run a server. Where the root folder is closed to all but root, as in some folders that are made to
        look like a machine, that user gets the right to go through folders, and no other."""
        if os.getuid() == 0:
            command = ("setpriv", f"--reuid={USER}", f"--regid={USER}", "--init-groups", *self.rights, *command)
        return subprocess.Popen([str(c) for c in command], cwd=self.folder, **more)

    def copy_installation(self, build):
        self.programs = self.under(config("bindir"))
        self.programs.mkdir(parents=True)
        for program in ("postgres", "initdb"):
            shutil.copy(config("bindir") / program, self.programs)
        for what in ("pkglibdir", "sharedir"):
            folder = config(what)
            self.under(folder).parent.mkdir(parents=True, exist_ok=True)
            subprocess.run(["cp", "-rs", folder, self.under(folder)], check=True)
            for ours in [*self.under(folder).glob("ferrule*"), *self.under(folder).glob("extension/ferrule*")]:
                ours.unlink()  # of an installed version
        for ours in pathlib.Path(build, "postgresql").glob("ferrule*"):
            shutil.copy(ours, self.under(config("pkglibdir") if ours.suffix == ".so" else config("sharedir") / "extension"))

    def start(self, build, options):
        self.copy_installation(build)
        data, log = self.folder / "data", self.folder / "log"
        log.touch()
        if os.getuid() == 0:
            user = pwd.getpwnam(USER)
            for path in (self.folder, log):
                os.chown(path, user.pw_uid, user.pw_gid)
        made = self.run(self.programs / "initdb", "-D", data, "-U", USER, "-A", "trust", "-E", "UTF8", "--locale=C.UTF-8", "-N",
                        stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
        said, _ = made.communicate()
        if made.returncode:
            raise SystemExit(said)
        settings = {"listen_addresses": "", "unix_socket_directories": self.folder, "fsync": "off", "max_wal_size": "4GB",
                    "autovacuum": "off", **dict(options)}
        words = [w for name, value in settings.items() for w in ("-c", f"{name}={value}")]
        self.process = self.run(self.programs / "postgres", "-D", data, *words, stdout=subprocess.DEVNULL, stderr=log.open("a"))
        self.environment = {"PGHOST": str(self.folder), "PGUSER": USER, "PGDATABASE": "postgres"}
        for _ in range(600):
            if self.process.poll() is not None:
                break
            asked = subprocess.run(["psql", "-qAtXc", "SELECT 1"], env={**os.environ, **self.environment},
                                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
            if asked.returncode == 0:
                return
            time.sleep(0.1)
        raise SystemExit("the server did not start:\n" + log.read_text())

    def pid(self):
        return int((self.folder / "data" / "postmaster.pid").read_text().split()[0])

    def stop(self):
        if self.process:
            if self.process.poll() is None:
                os.kill(self.pid(), signal.SIGINT)
            self.process.wait(60)
        shutil.rmtree(self.folder, ignore_errors=True)

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.stop()
