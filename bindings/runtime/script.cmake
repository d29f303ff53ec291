# SPDX-License-Identifier: MIT
# The other languages: tables out of the headers once, then a folder of bindings/ for each that is wanted.
set(script_languages)
foreach(language lua tcl perl ruby java csharp)
    string(TOUPPER ${language} option)
    if(FERRULE_${option})
        list(APPEND script_languages ${language})
    endif()
endforeach()
if(NOT script_languages AND NOT FERRULE_SQLITE AND NOT FERRULE_POSTGRESQL)
    return()
endif()

find_package(Python3 3.10 REQUIRED COMPONENTS Interpreter)
if(script_languages)
    find_package(SWIG 4.1 REQUIRED)
endif()
find_package(PkgConfig REQUIRED)
set(script_bindings ${PROJECT_SOURCE_DIR}/bindings)
set(script_runtime ${script_bindings}/runtime)
set(script_folder ${PROJECT_BINARY_DIR}/script)
file(GLOB script_headers CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/include/ferrule/*.h)
file(MAKE_DIRECTORY ${script_folder})

add_custom_command(
    OUTPUT ${script_folder}/kinds_list.h ${script_folder}/kinds_table.c ${script_folder}/functions_table.c
           ${script_folder}/api.i ${script_folder}/documents/stamp
    COMMAND Python3::Interpreter -B ${script_bindings}/api/describe.py ${script_folder} --script
    COMMAND Python3::Interpreter -B ${script_bindings}/api/document.py ${script_folder}/documents
    COMMAND ${CMAKE_COMMAND} -E touch ${script_folder}/documents/stamp
    DEPENDS ${script_bindings}/api/api.json ${script_bindings}/api/describe.py ${script_bindings}/api/document.py
    WORKING_DIRECTORY ${script_folder} VERBATIM)

# What is the same in each language; its functions host_... come from the language's own folder.
set(script_sources say.c take.c fail.c quantity.c give.c own.c kinds.c)
list(TRANSFORM script_sources PREPEND ${script_runtime}/)
add_library(ferrule_script OBJECT ${script_sources}
            ${script_folder}/kinds_table.c ${script_folder}/functions_table.c ${script_folder}/api.i)
target_link_libraries(ferrule_script PRIVATE ferrule_warnings)
add_custom_target(languages)
if(FERRULE_PYTHON)
    add_dependencies(languages ferrule_python)
endif()

# ferrule_add_language(NAME INCLUDES... SWIG OPTIONS... SOURCES FILES...): target ferrule_NAME, a module out of ferrule.i,
# NAME/host.c or the sources named, and the library. What SWIG writes is compiled without our warnings.
function(ferrule_add_language name)
    cmake_parse_arguments(PARSE_ARGV 1 language "" "" "SWIG;INCLUDES;OPTIONS;SOURCES")
    set(here ${script_bindings}/${name})
    if(NOT language_SOURCES)
        set(language_SOURCES ${here}/host.c)
    endif()
    set(wrap ${CMAKE_CURRENT_BINARY_DIR}/ferrule_${name}_wrap.c)
    add_custom_command(OUTPUT ${wrap}
        COMMAND ${SWIG_EXECUTABLE} -${name} ${language_SWIG} -I${here} -I${script_runtime} -I${script_folder}
                -I${PROJECT_SOURCE_DIR}/include -outdir ${CMAKE_CURRENT_BINARY_DIR} -o ${wrap}
                ${script_runtime}/ferrule.i
        DEPENDS ${script_folder}/api.i ${script_runtime}/ferrule.i ${script_runtime}/types.i
                ${script_runtime}/script.i ${here}/primitives.i ${script_headers} VERBATIM)
    add_library(ferrule_${name}_wrap OBJECT ${wrap})
    add_library(ferrule_${name} MODULE ${language_SOURCES} $<TARGET_OBJECTS:ferrule_script>
                $<TARGET_OBJECTS:ferrule_${name}_wrap>)
    target_link_libraries(ferrule_${name} PRIVATE ferrule_objects ferrule_warnings m)
    foreach(target ferrule_${name} ferrule_${name}_wrap)
        add_dependencies(${target} ferrule_script)
        target_include_directories(${target} PRIVATE ${here} ${script_runtime} ${script_folder}
                                                     ${PROJECT_SOURCE_DIR}/include)
        target_include_directories(${target} SYSTEM PRIVATE ${language_INCLUDES})
        target_compile_definitions(${target} PRIVATE FER_STATIC)
        target_compile_options(${target} PRIVATE ${language_OPTIONS})
    endforeach()
    set_target_properties(ferrule_${name} ferrule_${name}_wrap PROPERTIES C_VISIBILITY_PRESET hidden
                          POSITION_INDEPENDENT_CODE ON PREFIX "")
    add_dependencies(languages ferrule_${name})
endfunction()

# ferrule_add_document(LANGUAGE FILE TARGET): a file of document.py, in the package as it is built.
function(ferrule_add_document language file target)
    add_custom_command(TARGET ferrule_${language} POST_BUILD COMMAND ${CMAKE_COMMAND} -E copy
        ${script_folder}/documents/${language}/${file} ${target} VERBATIM)
endfunction()

# ferrule_add_typed_language(NAME SWIG OPTIONS... INCLUDES...): the same for a language whose types are fixed when a program
# is compiled: NAME/write_classes.py writes its classes into the folder `classes`, with typed_layout.c for the module.
function(ferrule_add_typed_language name)
    cmake_parse_arguments(PARSE_ARGV 1 typed "" "" "SWIG;INCLUDES")
    set(classes ${CMAKE_CURRENT_BINARY_DIR}/classes)
    add_custom_command(OUTPUT ${classes}/typed_layout.c
        COMMAND Python3::Interpreter ${script_bindings}/${name}/write_classes.py ${classes} --script
        COMMAND ${CMAKE_COMMAND} -E touch ${classes}/typed_layout.c
        DEPENDS ${script_bindings}/api/api.json ${script_bindings}/api/describe.py ${script_bindings}/api/shapes.py
                ${script_bindings}/${name}/write_classes.py VERBATIM)
    ferrule_add_language(${name} SWIG -module Native -I${script_runtime}/typed ${typed_SWIG}
        SOURCES ${script_runtime}/typed/typed.c ${classes}/typed_layout.c
        INCLUDES ${script_runtime}/typed ${typed_INCLUDES})
    set_target_properties(ferrule_${name} PROPERTIES PREFIX lib)
endfunction()

target_include_directories(ferrule_script PRIVATE ${script_runtime} ${script_folder} ${PROJECT_SOURCE_DIR}/include)
target_compile_definitions(ferrule_script PRIVATE FER_STATIC)
set_target_properties(ferrule_script PROPERTIES POSITION_INDEPENDENT_CODE ON C_VISIBILITY_PRESET hidden)
foreach(language IN LISTS script_languages)
    add_subdirectory(${script_bindings}/${language} ${script_folder}/${language})
endforeach()
if(FERRULE_SQLITE OR FERRULE_POSTGRESQL)
    add_subdirectory(${script_bindings}/sql ${script_folder}/sql)
endif()
