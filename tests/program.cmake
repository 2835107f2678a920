# Tests of the program as people run it; included by CMakeLists.txt.
find_package(Python3 3.9 REQUIRED COMPONENTS Interpreter)

# The checkers first: each must be able to fail.
add_test(NAME cases_can_fail
         COMMAND ${CMAKE_COMMAND} -DSCRATCH=${CMAKE_CURRENT_BINARY_DIR}/run_case
                 -P ${CMAKE_CURRENT_LIST_DIR}/run_case_self_test.cmake)
add_test(NAME docs_examples_can_fail
         COMMAND ${Python3_EXECUTABLE} ${CMAKE_CURRENT_LIST_DIR}/docs_examples_self_test.py)

if(NOT TARGET haymow)
  return()
endif()

# Golden cases: what the program prints, byte for byte.
file(GLOB cases CONFIGURE_DEPENDS ${CMAKE_CURRENT_LIST_DIR}/cases/*/command)
foreach(command IN LISTS cases)
  cmake_path(GET command PARENT_PATH case)
  cmake_path(GET case FILENAME name)
  add_test(NAME case/${name}
           COMMAND ${CMAKE_COMMAND} -DPROGRAM=$<TARGET_FILE:haymow> -DCASE=${case}
                   -DWORK=${CMAKE_CURRENT_BINARY_DIR}/cases/${name}
                   -P ${CMAKE_CURRENT_LIST_DIR}/run_case.cmake)
  set_tests_properties(case/${name} PROPERTIES TIMEOUT 120)
endforeach()

# The examples in the documentation print what it says they print.
add_test(NAME docs_examples
         COMMAND ${Python3_EXECUTABLE} ${CMAKE_CURRENT_LIST_DIR}/docs_examples.py
                 --program $<TARGET_FILE:haymow> --tree ${PROJECT_SOURCE_DIR}
                 --work ${CMAKE_CURRENT_BINARY_DIR}/docs_examples)

# Help, manual page and completion name the same commands and options.
add_test(NAME options_agree
         COMMAND ${Python3_EXECUTABLE} ${CMAKE_CURRENT_LIST_DIR}/options_agree.py
                 --program $<TARGET_FILE:haymow> --tree ${PROJECT_SOURCE_DIR})

# The JSON is what its schema says, and its sums are right. Debian's jsonschema
# comes with Debian's Python, which need not be the first on the path.
find_program(HAYMOW_SYSTEM_PYTHON NAMES python3 HINTS /usr/bin REQUIRED)
add_test(NAME report_schema
         COMMAND ${HAYMOW_SYSTEM_PYTHON} ${CMAKE_CURRENT_LIST_DIR}/report_schema.py
                 --program $<TARGET_FILE:haymow> --tree ${PROJECT_SOURCE_DIR})

# The calendar of a winter, read by another's parser.
add_test(NAME calendar_file
         COMMAND ${HAYMOW_SYSTEM_PYTHON} ${CMAKE_CURRENT_LIST_DIR}/calendar_file.py
                 --program $<TARGET_FILE:haymow> --tree ${PROJECT_SOURCE_DIR})

# The pages of `--format html` and `--format sheet`: what they say and what they hold.
add_test(NAME html_report
         COMMAND ${HAYMOW_SYSTEM_PYTHON} ${CMAKE_CURRENT_LIST_DIR}/html_report.py
                 --program $<TARGET_FILE:haymow> --tree ${PROJECT_SOURCE_DIR})

# The pictures in the documentation show what the program shows. HAYMOW_UPDATE=1 takes
# those anew that do not, in Chromium.
add_test(NAME docs_pictures
         COMMAND ${HAYMOW_SYSTEM_PYTHON} ${CMAKE_CURRENT_LIST_DIR}/docs_pictures.py
                 --program $<TARGET_FILE:haymow> --tree ${PROJECT_SOURCE_DIR})

# Ctrl-C in the middle of a long command, and the line of progress on a terminal.
add_test(NAME interruption
         COMMAND ${HAYMOW_SYSTEM_PYTHON} ${CMAKE_CURRENT_LIST_DIR}/interruption.py
                 --program $<TARGET_FILE:haymow> --tree ${PROJECT_SOURCE_DIR})
set_tests_properties(docs_examples options_agree report_schema calendar_file html_report
                     docs_pictures interruption PROPERTIES TIMEOUT 300)

# Thousands of records: killed and gone on with, and shared out to several machines.
foreach(test batch_runs batch_machines)
  add_test(NAME ${test}
           COMMAND ${HAYMOW_SYSTEM_PYTHON} ${CMAKE_CURRENT_LIST_DIR}/${test}.py
                   --program $<TARGET_FILE:haymow> --tree ${PROJECT_SOURCE_DIR})
  set_tests_properties(${test} PROPERTIES TIMEOUT 300 SKIP_RETURN_CODE 77)
endforeach()

# The longest begin first, so that none of them is left over at the end.
set_tests_properties(docs_examples report_schema html_report batch_runs batch_machines interruption
                     PROPERTIES COST 100)

# What editors are told of a scenario file is what the reader takes.
add_test(NAME scenario_schema
         COMMAND ${HAYMOW_SYSTEM_PYTHON} ${CMAKE_CURRENT_LIST_DIR}/scenarios/scenario_schema.py
                 --tree ${PROJECT_SOURCE_DIR})
