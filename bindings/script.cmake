# SPDX-License-Identifier: MIT
# The scripting languages: tables out of the headers once, then a folder of bindings/ for each that is wanted.
set(script_languages)
foreach(language lua tcl perl ruby)
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
find_package(Doxygen 1.9 REQUIRED)
find_package(PkgConfig REQUIRED)
set(script_bindings ${PROJECT_SOURCE_DIR}/bindings)
set(script_folder ${PROJECT_BINARY_DIR}/script)
file(GLOB script_headers CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/include/ferrule/*.h)
file(MAKE_DIRECTORY ${script_folder})

configure_file(${script_bindings}/Doxyfile.in ${script_folder}/Doxyfile @ONLY)
add_custom_command(
    OUTPUT ${script_folder}/kinds_list.h ${script_folder}/kinds_table.c ${script_folder}/functions_table.c
           ${script_folder}/api.i ${script_folder}/documents/stamp
    COMMAND ${DOXYGEN_EXECUTABLE} Doxyfile
    COMMAND Python3::Interpreter ${script_bindings}/describe.py xml ${script_folder} --script
    COMMAND Python3::Interpreter -B ${script_bindings}/document.py xml ${script_folder}/documents
    COMMAND ${CMAKE_COMMAND} -E touch ${script_folder}/documents/stamp
    DEPENDS ${script_headers} ${script_bindings}/describe.py ${script_bindings}/document.py ${PROJECT_SOURCE_DIR}/docs/aliases.doxy
    WORKING_DIRECTORY ${script_folder} VERBATIM)

# What is the same in each language; its functions host_... come from the language's own folder.
add_library(ferrule_script OBJECT ${script_bindings}/script.c ${script_bindings}/kinds.c
            ${script_folder}/kinds_table.c ${script_folder}/functions_table.c ${script_folder}/api.i)
target_link_libraries(ferrule_script PRIVATE ferrule_warnings)
add_custom_target(languages)
if(FERRULE_PYTHON)
    add_dependencies(languages ferrule_python)
endif()

# ferrule_add_language(NAME INCLUDES... SWIG OPTIONS...): target ferrule_NAME, a module out of ferrule.i, NAME/host.c
# and the library. What SWIG writes is compiled without our warnings.
function(ferrule_add_language name)
    cmake_parse_arguments(PARSE_ARGV 1 language "" "" "SWIG;INCLUDES;OPTIONS")
    set(here ${script_bindings}/${name})
    set(wrap ${CMAKE_CURRENT_BINARY_DIR}/ferrule_${name}_wrap.c)
    add_custom_command(OUTPUT ${wrap}
        COMMAND ${SWIG_EXECUTABLE} -${name} ${language_SWIG} -I${here} -I${script_bindings} -I${script_folder}
                -I${PROJECT_SOURCE_DIR}/include -outdir ${CMAKE_CURRENT_BINARY_DIR} -o ${wrap}
                ${script_bindings}/ferrule.i
        DEPENDS ${script_folder}/api.i ${script_bindings}/ferrule.i ${script_bindings}/types.i
                ${script_bindings}/script.i ${here}/primitives.i ${script_headers} VERBATIM)
    add_library(ferrule_${name}_wrap OBJECT ${wrap})
    add_library(ferrule_${name} MODULE ${here}/host.c $<TARGET_OBJECTS:ferrule_script>
                $<TARGET_OBJECTS:ferrule_${name}_wrap>)
    target_link_libraries(ferrule_${name} PRIVATE ferrule_objects ferrule_warnings m)
    foreach(target ferrule_${name} ferrule_${name}_wrap)
        add_dependencies(${target} ferrule_script)
        target_include_directories(${target} PRIVATE ${here} ${script_bindings} ${script_folder}
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

target_include_directories(ferrule_script PRIVATE ${script_bindings} ${script_folder} ${PROJECT_SOURCE_DIR}/include)
target_compile_definitions(ferrule_script PRIVATE FER_STATIC)
set_target_properties(ferrule_script PROPERTIES POSITION_INDEPENDENT_CODE ON C_VISIBILITY_PRESET hidden)
foreach(language IN LISTS script_languages)
    add_subdirectory(${script_bindings}/${language} ${script_folder}/${language})
endforeach()
if(FERRULE_SQLITE OR FERRULE_POSTGRESQL)
    add_subdirectory(${script_bindings}/sql ${script_folder}/sql)
endif()
