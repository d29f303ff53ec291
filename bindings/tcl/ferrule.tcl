# SPDX-License-Identifier: MIT
namespace eval ferrule {
    variable help_file [file join [file dirname [file normalize [info script]]] help.tcl]
    variable help_texts
}

# What is known about a command, a struct, a quantity, a list of words or a status.
proc ferrule::help {args} {
    variable help_file
    variable help_texts
    set refused {-code error -errorcode {FERRULE TYPE {} {} help}}
    if {[llength $args] != 1} {
        return {*}$refused "help: takes name, [llength $args] arguments given"
    }
    set name [string map {ferrule:: {}} [lindex $args 0]]
    if {![info exists help_texts]} {source -encoding utf-8 $help_file}
    if {[dict exists $help_texts $name]} {return [dict get $help_texts $name]}
    foreach status [dict get [describe] statuses] {
        if {[dict get $status name] eq $name} {return "$name\n\n[dict get $status sentence]"}
    }
    return {*}$refused "help: nothing is called '$name'"
}
