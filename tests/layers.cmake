# The straight line, as a test:   solver <- model <- feeds <- scenarios
# Fails when a file includes from a folder to the right of its own or from
# tests/, when a package is used where it does not belong, or when a CMake target
# links against the line.
#   cmake -DTREE=<folder> -P tests/layers.cmake
cmake_minimum_required(VERSION 3.25)

set(line solver model feeds scenarios)

# One rule a line: what an include may begin with | the folders that may use it.
# Whatever is not listed (the standard library) may be used everywhere.
set(include_rules
    "glpk|solver"
    "Eigen/|solver"
    "yaml-cpp/|feeds"
    "fmt/|model feeds scenarios"
    "spdlog/|scenarios"
    "CLI/|scenarios"
    "nlohmann/|scenarios"
    "httplib|scenarios"
    "kainjow/|scenarios"
    # The model reads no files and prints nothing.
    "iostream|solver feeds scenarios"
    "fstream|solver feeds scenarios"
    "filesystem|solver feeds scenarios"
    "cstdio|solver feeds scenarios")

# The same for what target_link_libraries names.
set(link_rules
    "haymow_glpk|solver"
    "glpk|solver"
    "Eigen3::Eigen|solver"
    "yaml-cpp|feeds"
    "fmt::fmt|model feeds scenarios"
    "spdlog::spdlog|scenarios"
    "CLI11::CLI11|scenarios"
    "nlohmann_json::nlohmann_json|scenarios"
    "httplib::httplib|scenarios")

set(offences 0)

function(offence where what)
  message(NOTICE "${where}: ${what}")
  math(EXPR offences "${offences} + 1")
  set(offences ${offences} PARENT_SCOPE)
endfunction()

set(files_seen 0)
foreach(folder IN LISTS line)
  list(FIND line ${folder} place)

  file(GLOB_RECURSE sources RELATIVE ${TREE}
       ${TREE}/${folder}/*.h ${TREE}/${folder}/*.cpp ${TREE}/${folder}/*.in)
  foreach(source IN LISTS sources)
    math(EXPR files_seen "${files_seen} + 1")
    file(STRINGS ${TREE}/${source} includes REGEX "^[ \t]*#[ \t]*include")
    foreach(include IN LISTS includes)
      if(include MATCHES "include[ \t]*\"([^\"]*)\"")
        set(header "${CMAKE_MATCH_1}")
        string(REGEX REPLACE "/.*" "" from "${header}")
        list(FIND line "${from}" from_place)
        if(from_place EQUAL -1)
          offence("${source}" "\"${header}\" is not written from the top folder of a part of the line")
        elseif(from_place GREATER place)
          offence("${source}" "\"${header}\" is to the right of ${folder} on the line")
        endif()
      elseif(include MATCHES "include[ \t]*<([^>]*)>")
        set(header "${CMAKE_MATCH_1}")
        foreach(rule IN LISTS include_rules)
          string(REGEX REPLACE "\\|.*" "" prefix "${rule}")
          string(REGEX REPLACE ".*\\|" "" allowed "${rule}")
          string(FIND "${header}" "${prefix}" at)
          string(REPLACE " " ";" allowed "${allowed}")
          if(at EQUAL 0 AND NOT folder IN_LIST allowed)
            offence("${source}" "<${header}> does not belong in ${folder}")
          endif()
        endforeach()
      endif()
    endforeach()
  endforeach()

  file(GLOB_RECURSE lists RELATIVE ${TREE} ${TREE}/${folder}/CMakeLists.txt)
  foreach(list_file IN LISTS lists)
    file(READ ${TREE}/${list_file} text)
    string(REGEX REPLACE "#[^\n]*" "" text "${text}")
    string(REGEX MATCHALL "target_link_libraries[ \t\r\n]*\\([^)]*\\)" calls "${text}")
    foreach(call IN LISTS calls)
      string(REGEX REPLACE "^[^(]*\\(|\\)$" "" call "${call}")
      string(REGEX MATCHALL "[^ \t\r\n]+" words "${call}")
      list(POP_FRONT words target)
      foreach(word IN LISTS words)
        list(FIND line "${word}" word_place)
        if(word_place GREATER place)
          offence("${list_file}" "${target} links ${word}, which is to the right of ${folder}")
        endif()
        foreach(rule IN LISTS link_rules)
          string(REGEX REPLACE "\\|.*" "" library "${rule}")
          string(REGEX REPLACE ".*\\|" "" allowed "${rule}")
          string(REPLACE " " ";" allowed "${allowed}")
          if(word STREQUAL library AND NOT folder IN_LIST allowed)
            offence("${list_file}" "${target} links ${word}, which does not belong in ${folder}")
          endif()
        endforeach()
      endforeach()
    endforeach()
  endforeach()
endforeach()

if(offences GREATER 0)
  message(FATAL_ERROR "the line is crossed in ${offences} place(s)")
elseif(files_seen EQUAL 0)
  message(FATAL_ERROR "no source files below ${TREE}")
endif()
message(STATUS "the line holds in ${files_seen} files")
