# Shows that run_case.cmake can fail: a stand-in program and a case that is right,
# then the same case wrong in each of its parts.
#   cmake -DSCRATCH=<folder> -P tests/run_case_self_test.cmake
cmake_minimum_required(VERSION 3.25)

file(REMOVE_RECURSE ${SCRATCH})
file(WRITE ${SCRATCH}/bin/haymow
     "#!/bin/sh\ncat \"$1\"; echo \"[a;b] $TERM\" >&2; echo kept >note.txt; exit 3\n")
file(CHMOD ${SCRATCH}/bin/haymow PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE)

function(expect what part content must_pass)
  set(case "${SCRATCH}/a case")
  file(REMOVE_RECURSE ${case})
  file(WRITE ${case}/command "haymow input.yaml\n")
  file(WRITE ${case}/input.yaml "hay: [1; 2]\n\n")
  file(WRITE ${case}/stdout "hay: [1; 2]\n\n")
  file(WRITE ${case}/stderr "[a;b] dumb\n")
  file(WRITE ${case}/status "3\n")
  file(WRITE ${case}/written/note.txt "kept\n")
  file(WRITE ${case}/${part} "${content}")
  execute_process(COMMAND ${CMAKE_COMMAND} -DPROGRAM=${SCRATCH}/bin/haymow -DCASE=${case}
                          -DWORK=${SCRATCH}/work ${ARGN}
                          -P ${CMAKE_CURRENT_FUNCTION_LIST_DIR}/run_case.cmake
                  RESULT_VARIABLE status OUTPUT_VARIABLE output ERROR_VARIABLE output)
  if(must_pass AND NOT status EQUAL 0)
    message(FATAL_ERROR "${what}: should pass:\n${output}")
  elseif(NOT must_pass AND status EQUAL 0)
    message(FATAL_ERROR "${what}: should fail")
  endif()
endfunction()

unset(ENV{HAYMOW_UPDATE})
expect("a true case" status "3\n" TRUE)
expect("another stdout" stdout "hay: [1; 2]\n" FALSE)
expect("another stderr" stderr "" FALSE)
expect("another status" status "0\n" FALSE)
expect("another file written" written/note.txt "lost\n" FALSE)
expect("a file never written" written/other.txt "kept\n" FALSE)
expect("rewriting" stdout "old\n" TRUE -DUPDATE=ON)
