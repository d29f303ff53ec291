// SPDX-License-Identifier: MIT
package ferrule;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Locale;

/**
 * Loads the compiled library once: the file that the property {@code ferrule.library} names, or from
 * {@code java.library.path}, or out of the jar into a temporary file.
 */
final class Library {
    private static final String NAME = "ferrule_java";

    private Library() {
    }

    static void load() {
        String file = System.getProperty("ferrule.library");
        if (file != null) {
            System.load(Path.of(file).toAbsolutePath().toString());
        } else {
            try {
                System.loadLibrary(NAME);
            } catch (UnsatisfiedLinkError notThere) {
                loadFromJar(notThere);
            }
        }
        String layout = new Words(NativeJNI.layout()).takeText();
        if (!layout.equals(Layout.TEXT)) {
            throw new UnsatisfiedLinkError("The library " + NAME + " that was loaded is of another version than these classes");
        }
    }

    private static void loadFromJar(UnsatisfiedLinkError notThere) {
        String system = System.getProperty("os.name").split(" ")[0].toLowerCase(Locale.ROOT);
        String place = "native/" + system + "-" + System.getProperty("os.arch") + "/" + System.mapLibraryName(NAME);
        try (InputStream in = Library.class.getResourceAsStream(place)) {
            if (in == null) {
                throw notThere;
            }
            Path copy = Files.createTempFile(NAME, ".tmp");
            try {
                Files.copy(in, copy, StandardCopyOption.REPLACE_EXISTING);
                System.load(copy.toString());
            } finally {
                deleteIfPossible(copy);
            }
        } catch (IOException failure) {
            UnsatisfiedLinkError error = new UnsatisfiedLinkError("The library " + NAME + " cannot be copied out of the jar");
            error.initCause(failure);
            throw error;
        }
    }

    /** Where a loaded file cannot be deleted, it goes when the machine ends. */
    private static void deleteIfPossible(Path copy) {
        try {
            Files.delete(copy);
        } catch (IOException inUse) {
            copy.toFile().deleteOnExit();
        }
    }
}
