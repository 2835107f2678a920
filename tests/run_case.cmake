# One golden case: runs tests/cases/<name>/command and compares what comes out,
# byte for byte, with stdout, stderr and status beside it.
#   cmake -DPROGRAM=<haymow> -DCASE=<folder> -DWORK=<folder> [-DUPDATE=ON] -P run_case.cmake
# UPDATE (or HAYMOW_UPDATE=1 in the environment) rewrites the three files, and those in written/, instead.
#
# `command` is a line for sh. It runs in a copy of the case's folder, so that what
# it writes stays out of the source tree; examples/ in it are the shipped ones.
# Files expected to be written by the command are kept in written/.
cmake_minimum_required(VERSION 3.25)

cmake_path(GET CASE FILENAME name)
foreach(part command stdout stderr status)
  if(NOT EXISTS ${CASE}/${part} AND (part STREQUAL "command" OR NOT (UPDATE OR DEFINED ENV{HAYMOW_UPDATE})))
    message(FATAL_ERROR "${name}: the case has no file `${part}`; HAYMOW_UPDATE=1 writes stdout, stderr and status")
  endif()
endforeach()

# The copy, without the answers: the program must not be able to read them.
file(REMOVE_RECURSE ${WORK})
file(COPY ${CASE}/ DESTINATION ${WORK}/case
     PATTERN stdout EXCLUDE PATTERN stderr EXCLUDE PATTERN status EXCLUDE PATTERN written EXCLUDE)
file(COPY ${CMAKE_CURRENT_LIST_DIR}/../scenarios/examples DESTINATION ${WORK}/case)

# A clean environment: same input, same bytes on any machine.
cmake_path(GET PROGRAM PARENT_PATH program_folder)
set(environment PATH=${program_folder}:/usr/bin:/bin HOME=${WORK} TERM=dumb LC_ALL=C.UTF-8 TZ=UTC)
foreach(sanitizer ASAN_OPTIONS LSAN_OPTIONS UBSAN_OPTIONS)
  if(DEFINED ENV{${sanitizer}})
    list(APPEND environment ${sanitizer}=$ENV{${sanitizer}})
  endif()
endforeach()
execute_process(COMMAND env -i ${environment} sh ./command
                WORKING_DIRECTORY ${WORK}/case
                INPUT_FILE /dev/null
                OUTPUT_FILE ${WORK}/stdout
                ERROR_FILE ${WORK}/stderr
                RESULT_VARIABLE status)
file(WRITE ${WORK}/status "${status}\n")

if(UPDATE OR DEFINED ENV{HAYMOW_UPDATE})
  foreach(part stdout stderr status)
    file(COPY_FILE ${WORK}/${part} ${CASE}/${part} ONLY_IF_DIFFERENT)
  endforeach()
  file(GLOB written RELATIVE ${CASE}/written ${CASE}/written/*)
  foreach(file IN LISTS written)
    file(COPY_FILE ${WORK}/case/${file} ${CASE}/written/${file} ONLY_IF_DIFFERENT)
  endforeach()
  message(STATUS "${name}: stdout, stderr, status and files written; read the difference before committing it")
endif()

set(differs FALSE)
function(compare expected actual)
  execute_process(COMMAND diff -u ${expected} ${actual} RESULT_VARIABLE result)
  if(NOT result EQUAL 0)
    set(differs TRUE PARENT_SCOPE)
  endif()
endfunction()

foreach(part stdout stderr status)
  compare(${CASE}/${part} ${WORK}/${part})
endforeach()
file(GLOB written RELATIVE ${CASE}/written ${CASE}/written/*)
foreach(file IN LISTS written)
  compare(${CASE}/written/${file} ${WORK}/case/${file})
endforeach()
if(differs)
  message(FATAL_ERROR "${name}: differs from what is written in ${CASE}")
endif()
