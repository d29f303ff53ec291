# SPDX-License-Identifier: MIT
package require ferrule

set worked {
    hose {inside "12.7 mm" outside "19.9 mm"}
    stem {outside "12.95 mm"}
    ferrule {wall "2.4 mm" outside "25.6 mm"}
}
set press {graduation "0.05 mm" opening "25 mm"}
set rack {"16 mm" "19 mm" {size "22 mm" adapter 1} "25 mm"}
set setup [ferrule::plan_setup [list joint $worked widest "38 mm"] $press $rack]

set dial [dict get $setup dial value setting]
puts [ferrule::readiness_sentence [dict get $setup readiness]]
puts "target [ferrule::text [dict get $setup target] ".2f mm"], [ferrule::text [dict get $setup plain value] ".1f %"]"
puts "die [dict get $setup die die size], dial [ferrule::text $dial ".2f mm"]"
foreach remark [dict get $setup remarks] {
    puts "[ferrule::remark_severity $remark]: [ferrule::remark_sentence $remark]"
}

dict set worked stem outside "19.9 mm"
try {
    ferrule::crimp_diameter $worked "20 %"
} trap {FERRULE STEM} {message options} {
    puts [lindex [dict get $options -errorcode] 2]
}
