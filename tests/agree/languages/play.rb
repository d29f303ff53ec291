# SPDX-License-Identifier: MIT
# The Ruby package as check_language.py asks: rows, bad, failing COUNT, speed COUNT, functions, own.
require "ferrule"

JOINT = {hose: {inside: "12.7 mm", outside: "19.9 mm"}, stem: "12.95 mm",
         ferrule: {wall: "2.4 mm", outside: "25.6 mm"}}.freeze

# `a.b=1; l.0.c=2` as a hash, with arrays where the names are numbers.
def nest(text)
  tree = {}
  text.split("; ").each do |item|
    path, value = item.split("=", 2)
    *parents, last = path.split(".")
    node = parents.each_with_index.reduce(tree) do |at, (name, i)|
      key = name.match?(/\A\d+\z/) ? name.to_i : name
      at[key] ||= (parents + [last])[i + 1].match?(/\A\d+\z/) ? [] : {}
    end
    node[last] = %w[needed changed].include?(last) ? value.split(", ") : value == "true" || plain(value)
  end
  tree
end

# A value without a unit is a number, all others stay text.
def plain(value)
  return value.to_i if value.match?(/\A-?\d+\z/)
  value.match?(/\A-?\d+\.\d*\z/) ? value.to_f : value
end

def said(value)
  case value
  when Ferrule::Quantity
    base = Ferrule::KINDS[value.class.name.delete_prefix("Ferrule::")][:names].first
    [value.public_send(base)].pack("G").unpack1("H*")
  when Float then [value].pack("G").unpack1("H*")
  when true, false then value ? 1 : 0
  when Array then value.join(", ")
  else value
  end
end

def figure(row, results, path)
  first, *names = path.split(".")
  results = [results] if row[:results].size == 1
  place = row[:results].index { |result| result[:name] == first }
  names.reduce(results[place]) { |value, name| value.public_send(name) }
end

def call(name, tree)
  list = Ferrule::FUNCTIONS[name.to_sym][:arguments].map { |argument| tree.fetch(argument[:name], argument[:list] ? [] : nil) }
  Ferrule.public_send(name, *list)
end

# With two calls in a line the second one's set-up is what the first one gives.
def rows
  $stdin.each_line(chomp: true) do |line|
    name, arguments, path, first, of_first = line.split("\t")
    tree = nest(arguments)
    tree["setup"] = call(first, nest(of_first)) if first
    puts said(figure(Ferrule::FUNCTIONS[name.to_sym], call(name, tree), path))
  rescue Ferrule::Error => error
    puts "status #{error.name}"
  end
end

BAD = {
  bare_number: -> { Ferrule.crimp_diameter(JOINT, 20) },
  missing_unit: -> { Ferrule.crimp_diameter(JOINT, "20") },
  other_kind: -> { Ferrule.crimp_diameter(JOINT, Ferrule.mm(12.7)) },
  other_kind_text: -> { Ferrule.crimp_diameter(JOINT, "12.7 mm") },
  nan: -> { Ferrule.crimp_diameter(JOINT, Ferrule.fraction(Float::NAN)) },
  empty_list: -> { Ferrule.summarise_readings([], {}) },
  empty_text: -> { Ferrule.crimp_diameter(JOINT, "") },
  long_text: -> { Ferrule.crimp_diameter(JOINT, " " * 2000) },
  zero_byte: -> { Ferrule.crimp_diameter(JOINT, "20 \0%") },
  too_few: -> { Ferrule.crimp_diameter(JOINT) },
  too_many: -> { Ferrule.crimp_diameter(JOINT, "20 %", {}, 1) },
  unknown_word: -> { Ferrule.crimp_diameter(JOINT, "20 %", {basis: "wal"}) },
  unknown_member: -> { Ferrule.crimp_diameter(JOINT.merge(stm: 1), "20 %") },
  missing_member: -> { Ferrule.crimp_diameter(JOINT.merge(hose: {inside: "1 mm"}), "20 %") },
  not_a_list: -> { Ferrule.choose_die("16 mm", "3 mm") },
  bad_item: -> { Ferrule.choose_die(["16 mm", {size: "19"}], "3 mm") },
  second_list: -> { Ferrule.choose_purchases(["16 mm"], ["20 mm"], ["22 mm", 3]) },
  wrong_struct: -> { Ferrule.crimp_diameter(Ferrule::Hose.new(JOINT[:hose]), "20 %") },
  rule: -> { Ferrule.crimp_diameter(JOINT.merge(stem: "19.9 mm"), "20 %") },
  not_whole: -> { Ferrule.lobe_height("23 mm", "22 mm", 8.5) },
  too_large: -> { Ferrule.lobe_height("23 mm", "22 mm", 2**40) },
}.freeze

def memory
  GC.start
  File.read("/proc/self/status")[/VmRSS:\s*(\d+)/, 1].to_i
end

def fail_often(count)
  calls = BAD.values
  count.times do |i|
    calls[i % calls.size].call
  rescue Ferrule::Error
    nil
  end
end

# With the collector at work at every chance, so that a value which nobody holds is found missing.
def bad
  GC.stress = true
  BAD.each do |name, call|
    call.call
    raise "#{name} passed"
  rescue Ferrule::Error => error
    raise "#{name}: #{error.backtrace.first}" unless error.backtrace.first.start_with?(__FILE__)
    word = error.class.name[/\AFerrule::(\w+)Error\z/, 1]
    puts [name, word, error.name.to_s, error.function, error.path.to_s, error.message].join("\t")
  end
ensure
  GC.stress = false
end

def failing(count)
  fail_often(count.to_i)
  before = memory
  fail_often(count.to_i)
  puts "#{before} #{memory}"
end

def speed(count)
  known, share = Ferrule::Joint.new(JOINT), Ferrule.percent(20)
  start = Process.clock_gettime(Process::CLOCK_MONOTONIC)
  count.to_i.times { Ferrule.crimp_diameter(known, share) }
  puts count.to_i / (Process.clock_gettime(Process::CLOCK_MONOTONIC) - start)
end

# What help says of each name that comes in; "refused" where it raises the package's error.
def help
  $stdin.set_encoding("UTF-8")
  $stdin.each_line(chomp: true) do |name|
    text = begin
      Ferrule.help(name)
    rescue Ferrule::TypeError => error
      check error.function == "help"
      "refused"
    end
    puts text, "\f"
  end
  check Ferrule.help(:mm) == Ferrule.help("Ferrule::mm")
end

def functions
  puts Ferrule::FUNCTIONS.keys
end

# Objects of classes that only look like ours.
def pretenders
  Array.new(Ferrule::KINDS.size + 1) { |i| Class.new { instance_variable_set(:@ferrule_kind, i) }.new }
end

def any(random, values)
  case random.rand
  when 0...0.2 then [any(random, values), any(random, values)]
  when 0.2...0.4 then {[:hose, :value, "status", "size", 1].sample(random: random) => any(random, values)}
  else values.sample(random: random)
  end
end

# Whatever is passed to whatever function, it returns or raises an error of ours.
def odd(rounds)
  random = Random.new(8)
  endless = []
  endless << endless
  setup = Ferrule.plan_setup({joint: JOINT}, {}, ["19 mm"])
  values = [nil, true, false, 0, -1, 3, 2**31, 2**63, -2**63, 2**2000, 0.5, Float::NAN, Float::INFINITY, 1r, "", "1 mm", "20 %", "20",
            "x" * 5000, "\0", "\xff\xc0", "\u00b5".encode("UTF-16LE"), "\x80".b, :wall, :"20 %", [], {}, [[]], endless,
            {hose: endless}, -> { 1 }, $stdin, Object, Object.new, BasicObject, JOINT, setup, Ferrule.mm(20), Ferrule.mm(Float::NAN),
            Ferrule.percent(20), Ferrule::Hose.new(JOINT[:hose]), Ferrule::Length.allocate, Ferrule::Hose.allocate,
            Class.new(Ferrule::Length).allocate, Struct.new(:hose).new(1), {size: "16 mm"}, {diameter: "20 mm"}, 1..2, Time.now]
  values += pretenders
  (Ferrule::FUNCTIONS.keys + [:make] * 50).each do |name|
    rounds.to_i.times do
      given = Array.new(random.rand(8)) { any(random, values) }
      name == :make ? Ferrule::Core.make(Ferrule::KINDS.keys.sample(random: random), *given.take(1)) : Ferrule.public_send(name, *given)
    rescue Ferrule::Error
      nil
    end
  end
end

def check(truth)
  raise "not so at line #{caller_locations(1, 1).first.lineno}" unless truth
end

def check_quantities
  mm, inch = Ferrule.method(:mm), Ferrule.method(:inch)
  check mm[25.4] == inch[1] && mm[1] != Ferrule.mpa(1) && mm[1] < inch[1] && inch[1] <= inch[1] && mm[1].eql?(mm[1])
  check (mm[3] + inch[1]).mm == 28.4 && (mm[3] - mm[4]).mm == -1 && (-mm[2]).mm == -2 && mm[-2].abs == mm[2]
  check (mm[3] / mm[2]).percent == 150 && (mm[3] * 2).mm == 6 && (Ferrule.percent(50) * mm[3]).mm == 1.5
  check (2 * mm[3]).mm == 6 && [mm[3], mm[1]].min == mm[1] && {mm[3] => 1}[mm[3]] == 1
  check mm[12.7].to_s == "12.7 mm" && inch[1.25].format(".2f mm") == "31.75 mm" && mm[3].inspect == "#<Ferrule::Length 3 mm>"
  check Ferrule::Length.new("12,7 mm", decimal: ",") == mm[12.7] && Ferrule::Length.new("1½ IN", decimal: ".") == inch[1.5]
  check inch[1.25].format(".1/64 in") == "1 1/4 in" && Ferrule::Length.new("5 mils").thou == 5
  begin
    Ferrule::Length.new("1.234 mm", decimal: ",")
    raise "passed"
  rescue Ferrule::TextError => error
    check error.name == "TEXT_POINT" && error.function == "Length"
  end
  check Ferrule.micrometre(5).format("micrometre") == "5 µm" && Ferrule::Length.new("5 µm".encode("UTF-16LE")).mm == 0.005
end

def check_refusals
  mm = Ferrule.method(:mm)
  [-> { mm[3] + Ferrule.mpa(4) }, -> { mm[3] < 4 }, -> { mm[3] / 0 }, -> { mm[3] + 4 }, -> { 4 + mm[3] },
   -> { Ferrule.celsius(3) + Ferrule.celsius(4) }, -> { mm[3].bar }, -> { mm[3].format("bar") }, -> { mm[3].format(".2") },
   -> { Ferrule::Length.new("12,7 mm") }, -> { Ferrule::Length.new("12,7 mm", decimal: ";") },
   -> { Ferrule::Length.new(mm[3], decimal: ",") }, -> { mm[3].format(".1/3 in") },
   -> { mm["three"] }, -> { Ferrule::Length.new(3) }, -> { Ferrule::Hose.new }, -> { Math.sqrt(mm[4]) }, -> { mm[[]] },
   -> { mm[3].instance_variable_set(:@base, 4.0) }, -> { Ferrule.choose_die({}, "3 mm") },
   -> { Ferrule.judge("23.5 mm", "0.01 mm") }, -> { Ferrule.judge("23.5 mm", "0.01 mm", nil) },
   -> { Ferrule.crimp_diameter(joint: JOINT) }, -> { Ferrule.crimp_diameter(compression: "20 %") },
   -> { Ferrule::Core.register("Length", String) },
   *pretenders.map { |other| -> { Ferrule::Length.new(other) } }].each_with_index do |wrong, i|
    wrong.call
    raise "#{i} passed"
  rescue ArgumentError, TypeError, NoMethodError, FrozenError
    nil
  end
end

def check_structs
  order = Ferrule::Order.new(joint: JOINT, widest: "38 mm")
  setup = Ferrule.plan_setup(order, {graduation: "0.05 mm", opening: "25 mm"}, ["16 mm", {size: "22 mm", adapter: 1}, "25 mm"])
  check setup == Ferrule::Setup.new(setup) && setup.uncertainty.value.nil? && setup.window.status == :ok
  check setup.remarks[2] == :adapter_goes_in && Ferrule.remark_sentence(setup.remarks[2]).include?("adapter")
  check Ferrule::Hose.new("inside" => "12.7 mm", "outside" => "19.9 mm") == Ferrule::Hose.new(**JOINT[:hose])
  check Ferrule::Hose.new(["12.7 mm", "19.9 mm"]).with(inside: "13 mm").inside.mm == 13
  check Ferrule::Stem.new("13 mm").outside == Ferrule.mm(13) && Ferrule::Die.new("16 mm").size.mm == 16
  check Ferrule.crimp_diameter(JOINT, compression: "20 %", model: "fitted wall") ==
        Ferrule.crimp_diameter(joint: JOINT, compression: "20 %", model: {basis: :fitted_wall})
  check Ferrule.check_press(graduation: "0.05 mm").nil? && Ferrule.crimp_diameter(JOINT, "20 %", nil).mm.round(2) == 23.51
  trials = [{}, [["1.51 mm", "23.61 mm"]], "23.51 mm"] # 0.10 mm too large at 1.51: 1.41
  check Ferrule.correct_dial(*trials).setting.format(".2f mm") == "1.41 mm"
  check Ferrule.correct_dial(*trials) == Ferrule.correct_dial(*trials, {lower: "0 mm", upper: "0 mm"})
  suspects, diagnosis = Ferrule.diagnose_diameter(setup, {}, ["22 mm"], [{diameter: "23.6 mm"}], [])
  check suspects.any? && diagnosis.is_a?(Ferrule::Diagnosis)
  check_whole_numbers
  GC.stress = true
  check Ferrule::Setup.new(setup) == setup && Ferrule.choose_purchases(["16 mm"], ["30 mm"], ["25 mm"]).first.size.mm == 25
ensure
  GC.stress = false
end

def check_whole_numbers
  # Known answer, test vectors of Salmon, Moraes, Dror, Shaw, SC11 (2011).
  words = Ferrule.find_random_words({word: [0xffffffff] * 4}, 2**64 - 1).word
  check words == [0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd]
  check Ferrule::ExactSum.new(whole: -2**63, parts: 2**64 - 1).then { _1.whole == -2**63 && _1.parts == 2**64 - 1 }
  [[2**63, 0], [0, -1], [0, 2**64], [-2**63 - 1, 0]].each do |sum|
    Ferrule::ExactSum.new(sum)
    raise "#{sum} passed"
  rescue Ferrule::TypeError
    nil
  end
end

def own
  check_quantities
  check_refusals
  check_structs
end

send(*ARGV)
