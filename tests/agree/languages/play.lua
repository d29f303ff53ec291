-- SPDX-License-Identifier: MIT
-- The Lua package as check_language.py asks: rows, bad, failing COUNT, speed COUNT, own.
local ferrule = require "ferrule"

local joint = {hose = {inside = "12.7 mm", outside = "19.9 mm"}, stem = "12.95 mm",
               ferrule = {wall = "2.4 mm", outside = "25.6 mm"}}

local function bits(number) return (string.pack(">d", number):gsub(".", function(c) return ("%02x"):format(c:byte()) end)) end

local sets = {needed = true, changed = true}

local function split(text)
  local words = {}
  for word in (text .. ", "):gmatch("(.-), ") do words[#words + 1] = word end
  return words
end

-- `a.b=1; l.1.c=2` as a table; items of lists are counted from 0 in the tables.
local function nest(text)
  local tree = {}
  for path, value in text:gmatch("([^=;%s][^=;]*)=([^;]*)") do
    local node, names = tree, {}
    for name in path:gmatch("[^.]+") do names[#names + 1] = tonumber(name) and tonumber(name) + 1 or name end
    for i = 1, #names - 1 do
      node[names[i]] = node[names[i]] or {}
      node = node[names[i]]
    end
    node[names[#names]] = sets[names[#names]] and split(value) or value == "true" or value:match("^-?%d+%.?%d*$") and tonumber(value) or value
  end
  return tree
end

local function figure(row, results, path)
  local names = {}
  for name in path:gmatch("[^.]+") do names[#names + 1] = name end
  for i, result in ipairs(row.results) do
    if result.name == names[1] then
      local value = results[i]
      for j = 2, #names do value = value[names[j]] end
      return value
    end
  end
end

local function said(value)
  local kind = ferrule.kind(value)
  if kind then return bits(value[ferrule.kinds[kind].names[1]]) end
  if math.type(value) == "float" then return bits(value) end
  if type(value) == "boolean" then return value and "1" or "0" end
  return type(value) == "table" and table.concat(value, ", ") or tostring(value)
end

local function call(name, tree)
  local row, list = ferrule.functions[name], {}
  for i, argument in ipairs(row.arguments) do list[i] = tree[argument.name] or (argument.list and {} or nil) end
  return ferrule[name](table.unpack(list, 1, #row.arguments))
end

-- With two calls in a line the second one's set-up is what the first one gives.
local function rows()
  for line in io.lines() do
    local name, arguments, path, first, of_first = line:match("([^\t]*)\t([^\t]*)\t([^\t]*)\t?([^\t]*)\t?([^\t]*)")
    local row, tree = ferrule.functions[name], nest(arguments)
    if first ~= "" then tree.setup = call(first, nest(of_first)) end
    local results = table.pack(pcall(call, name, tree))
    if results[1] then
      print(said(figure(row, {table.unpack(results, 2)}, path)))
    else
      print("status " .. results[2].name)
    end
  end
end

local function with(changes)
  local copy = {}
  for name, value in pairs(joint) do copy[name] = value end
  for name, value in pairs(changes) do copy[name] = value end
  return copy
end

local bad = {
  {"bare_number", function() ferrule.crimp_diameter(joint, 20) end},
  {"missing_unit", function() ferrule.crimp_diameter(joint, "20") end},
  {"other_kind", function() ferrule.crimp_diameter(joint, ferrule.mm(12.7)) end},
  {"other_kind_text", function() ferrule.crimp_diameter(joint, "12.7 mm") end},
  {"nan", function() ferrule.crimp_diameter(joint, ferrule.fraction(0 / 0)) end},
  {"empty_list", function() ferrule.summarise_readings({}, {}) end},
  {"empty_text", function() ferrule.crimp_diameter(joint, "") end},
  {"long_text", function() ferrule.crimp_diameter(joint, (" "):rep(2000)) end},
  {"zero_byte", function() ferrule.crimp_diameter(joint, "20 \0%") end},
  {"too_few", function() ferrule.crimp_diameter(joint) end},
  {"too_many", function() ferrule.crimp_diameter(joint, "20 %", {}, 1) end},
  {"unknown_word", function() ferrule.crimp_diameter(joint, "20 %", {basis = "wal"}) end},
  {"unknown_member", function() ferrule.crimp_diameter(with {stm = 1}, "20 %") end},
  {"missing_member", function() ferrule.crimp_diameter(with {hose = {inside = "1 mm"}}, "20 %") end},
  {"not_a_list", function() ferrule.choose_die("16 mm", "3 mm") end},
  {"bad_item", function() ferrule.choose_die({"16 mm", {size = "19"}}, "3 mm") end},
  {"second_list", function() ferrule.choose_purchases({"16 mm"}, {"20 mm"}, {"22 mm", 3}) end},
  {"wrong_struct", function() ferrule.crimp_diameter(ferrule.Hose(joint.hose), "20 %") end},
  {"rule", function() ferrule.crimp_diameter(with {stem = "19.9 mm"}, "20 %") end},
  {"not_whole", function() ferrule.lobe_height("23 mm", "22 mm", 8.5) end},
  {"too_large", function() ferrule.lobe_height("23 mm", "22 mm", 2 ^ 40) end},
}

local function memory()
  collectgarbage()
  collectgarbage()
  for line in io.lines("/proc/self/status") do
    local size = line:match("VmRSS:%s*(%d+)")
    if size then return size end
  end
end

local function fail_often(count)
  for i = 1, count do pcall(bad[i % #bad + 1][2]) end
end

local commands = {rows = rows}

function commands.bad()
  for _, row in ipairs(bad) do
    local ok, failure = pcall(row[2])
    print(table.concat({row[1], failure.class, failure.name or "", failure.call, failure.path or "", failure.message}, "\t"))
    assert(not ok and failure.message == tostring(failure):match(":%d+: (.*)"))
    assert(not failure.name or ferrule.statuses[failure.name].code == failure.code)
  end
end

function commands.failing(count)
  fail_often(count // 5)
  local before = memory()
  fail_often(count)
  print(before, memory())
end

function commands.speed(count)
  local known, share = ferrule.Joint(joint), ferrule.percent(20)
  local start = os.clock()
  for _ = 1, count do ferrule.crimp_diameter(known, share) end
  print(count / (os.clock() - start))
end

function commands.functions()
  for name in pairs(ferrule.functions) do print(name) end
end

-- Whatever is passed to whatever function, it returns or raises an error of ours.
function commands.odd(rounds)
  math.randomseed(8)
  local endless = {}
  endless[1], endless.hose = endless, endless
  local setup = ferrule.plan_setup({joint = joint}, {}, {"19 mm"})
  local values = {false, true, 0, -1, 3, 8, 2 ^ 31, 2 ^ 63, -2 ^ 63, math.mininteger, 0.5, 0 / 0, 1 / 0, "", "1 mm", "20 %", "20",
    ("x"):rep(5000), "\0", "\xff\xc0", "wall", {}, {{}}, endless, {"16 mm", nil, "19 mm"}, {[3] = 1}, {[endless] = 1}, print,
    coroutine.create(print), io.stdout, joint, setup, setmetatable({}, {__index = error, __len = error, __name = 3}),
    ferrule.mm(20), ferrule.mm(0 / 0), ferrule.percent(20), ferrule.Hose(joint.hose), {size = "16 mm"}, {diameter = "20 mm"}}
  for _, ours in ipairs {ferrule.mm(1), ferrule.Hose(joint.hose)} do -- what only looks like ours
    values[#values + 1] = debug.setmetatable({}, debug.getmetatable(ours))
  end
  local function any()
    local roll = math.random()
    if roll < 0.1 then return nil end
    if roll < 0.3 then return {any(), any()} end
    if roll < 0.4 then return {[({"hose", "value", "status", "size", 1})[math.random(5)]] = any()} end
    return values[math.random(#values)]
  end
  for name in pairs(ferrule.functions) do
    for _ = 1, rounds do
      local given = {}
      for i = 1, math.random(0, 7) do given[i] = any() end
      local ok, failure = pcall(ferrule[name], table.unpack(given, 1, 7 - math.random(0, 7)))
      if ok then tostring(failure) else assert(ferrule.kind(failure) == "Error", failure) end
    end
  end
  for kind, row in pairs(ferrule.kinds) do
    for _ = 1, ferrule[kind] and rounds or 0 do
      local ok, failure = pcall(ferrule[kind], any())
      assert(ok or ferrule.kind(failure) == "Error", failure)
    end
  end
end

-- What help says of each name that comes in; "refused" where it raises the package's error.
function commands.help()
  for name in io.lines() do
    local is_known, text = pcall(ferrule.help, name)
    if not is_known then
      assert(ferrule.kind(text) == "Error" and text.call == "help" and tostring(text):find("play.lua:%d+: help: ") == nil)
      text = "refused"
    end
    io.write(text, "\n\f\n")
  end
  local _, failure = pcall(function() ferrule.help("no such thing") end)
  assert(tostring(failure):find("play.lua:%d+: help: nothing is called 'no such thing'"))
end

function commands.own()
  local mm, inch = ferrule.mm, ferrule.inch
  assert(mm(25.4) == inch(1) and mm(1) ~= ferrule.mpa(1) and mm(1) < inch(1) and inch(1) <= inch(1))
  assert((mm(3) + inch(1)).mm == 28.4 and (mm(3) - mm(1)).mm == 2 and (-mm(2)).mm == -2)
  assert((mm(3) / mm(2)).percent == 150 and (mm(3) * 2).mm == 6 and (ferrule.percent(50) * mm(3)).mm == 1.5)
  assert(tostring(mm(12.7)) == "12.7 mm" and inch(1.25):format(".2f mm") == "31.75 mm" and inch(2):format("in") == "2 in")
  assert(ferrule.Length("12,7 mm", ",") == mm(12.7) and ferrule.Length("1½ IN", ".") == inch(1.5) and ferrule.Length("5 mils").thou == 5)
  assert(inch(1.25):format(".1/64 in") == "1 1/4 in")
  local _, comma = pcall(ferrule.Length, "1.234 mm", ",")
  assert(comma.name == "TEXT_POINT" and comma.call == "Length")
  for _, wrong in ipairs {
    function() return ferrule.Length("12,7 mm") end, function() return ferrule.Length("12,7 mm", ";") end,
    function() return ferrule.Length(mm(3), ",") end, function() return mm(3):format(".1/3 in") end,
    function() return mm(3) + ferrule.mpa(4) end, function() return mm(3) < 4 end, function() return mm(3) / 0 end,
    function() return ferrule.celsius(3) + ferrule.celsius(4) end, function() return mm(3).bar end,
    function() return mm(3):format("bar") end, function() return mm(3):format(".2") end, function() mm(3).mm = 4 end,
    function() return mm("three") end, function() return ferrule.Length(3) end, function() return ferrule.Hose {} end} do
    assert(not pcall(wrong))
  end
  local setup = ferrule.plan_setup({joint = joint, widest = "38 mm"}, {graduation = "0.05 mm", opening = "25 mm"},
                                   {"16 mm", {size = "22 mm", adapter = 1}, "25 mm"})
  assert(setup == ferrule.Setup(setup) and ferrule.kind(setup) == "Setup" and setup.uncertainty.value == nil)
  assert(setup.readiness == "AFTER_CONFIRMING" and setup.remarks[1] == "TARGET_COMPUTED")
  assert(ferrule.remark_sentence(setup.remarks[3]):find("adapter") and ferrule.remark_severity(setup.remarks[3]) == "DO_FIRST")
  assert(ferrule.Hose {"12.7 mm", "19.9 mm"} == ferrule.Hose(joint.hose) and ferrule.Stem("13 mm").outside == mm(13))
  assert(tostring(ferrule.Hose(joint.hose)) == "Hose{inside: 12.7 mm, outside: 19.9 mm}")
  local trials = {{"1.51 mm", "23.61 mm"}} -- 0.10 mm too large at 1.51: 1.41
  local corrected = ferrule.correct_dial({}, trials, "23.51 mm")
  assert(corrected.setting:format(".2f mm") == "1.41 mm" and corrected == ferrule.correct_dial({}, trials, "23.51 mm", {"0 mm", "0 mm"}))
  assert(not pcall(ferrule.judge, "23.5 mm", "0.01 mm") and not pcall(ferrule.judge, "23.5 mm", "0.01 mm", nil))
  local suspects, diagnosis = ferrule.diagnose_diameter(setup, {}, {"22 mm"}, {{diameter = "23.6 mm"}}, {})
  assert(#suspects > 0 and ferrule.kind(diagnosis) == "Diagnosis")
  -- Known answer, test vectors of Salmon, Moraes, Dror, Shaw, SC11 (2011); whole numbers of 64 bits go by their bits.
  local words = ferrule.find_random_words({word = {0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff}}, -1).word
  assert(words[1] == 0x408f276d and words[4] == 0x6d5451fd and ferrule.ExactSum {-1, -2}.parts == -2)
  assert(not pcall(ferrule.Trials, {seed = 2 ^ 64}) and not pcall(ferrule.RandomWords, {word = {-1, 0, 0, 0}}))
  assert(ferrule.kind("text") == nil and ferrule.kind {} == nil and ferrule.kind(mm(1)) == "Length")
end

commands[arg[1]](tonumber(arg[2]))
