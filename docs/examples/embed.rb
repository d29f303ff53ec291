# SPDX-License-Identifier: MIT
require "ferrule"

worked = Ferrule::Joint.new(
  hose: {inside: "12.7 mm", outside: "19.9 mm"},
  stem: {outside: "12.95 mm"},
  ferrule: {wall: "2.4 mm", outside: "25.6 mm"}
)
press = {graduation: "0.05 mm", opening: "25 mm"}
rack = ["16 mm", "19 mm", {size: "22 mm", adapter: 1}, "25 mm"]
setup = Ferrule.plan_setup({joint: worked, widest: "38 mm"}, press, rack)

puts Ferrule.readiness_sentence(setup.readiness)
puts "target #{setup.target.format('.2f mm')}, #{setup.plain.value.format('.1f %')}"
puts "die #{setup.die.die.size}, dial #{setup.dial.value.setting.format('.2f mm')}"
setup.remarks.each { |remark| puts "#{Ferrule.remark_severity(remark)}: #{Ferrule.remark_sentence(remark)}" }

begin
  Ferrule.crimp_diameter(worked.with(stem: "19.9 mm"), compression: "20 %")
rescue Ferrule::StemError => error
  puts error.name
end
