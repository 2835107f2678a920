# Tests of the shape of the code rather than of what it computes; included by
# CMakeLists.txt. Each comes with proof that it can fail.

# The line: solver <- model <- feeds <- scenarios.
add_test(NAME layers
         COMMAND ${CMAKE_COMMAND} -DTREE=${PROJECT_SOURCE_DIR} -P ${CMAKE_CURRENT_LIST_DIR}/layers.cmake)
add_test(NAME layers_can_fail
         COMMAND ${CMAKE_COMMAND} -DSCRATCH=${CMAKE_CURRENT_BINARY_DIR}/layers
                 -P ${CMAKE_CURRENT_LIST_DIR}/layers_self_test.cmake)

# Every header compiles alone, and twice, with what its own folder is compiled
# with. One generated source for each; building them is the test. clang-tidy sees
# the headers through the sources that use them. Once is enough: the presets that
# build everything a second and a third time turn it off.
option(HAYMOW_HEADERS_ALONE "Compile every header alone" ON)
set(together)
foreach(folder solver model feeds scenarios)
  set(alone)
  file(GLOB headers RELATIVE ${PROJECT_SOURCE_DIR} CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/${folder}/*.h)
  foreach(header IN LISTS headers)
    set(source ${CMAKE_CURRENT_BINARY_DIR}/headers/${header}.cpp)
    file(CONFIGURE OUTPUT ${source} CONTENT "#include \"@header@\"\n#include \"@header@\"  // NOLINT\n" @ONLY)
    list(APPEND alone ${source})
    string(APPEND together "#include \"${header}\"\n")
  endforeach()
  if(NOT HAYMOW_HEADERS_ALONE)
    continue()
  endif()
  add_library(${folder}_headers_alone OBJECT ${alone})
  target_link_libraries(${folder}_headers_alone PRIVATE $<TARGET_PROPERTY:${folder},LINK_LIBRARIES>)
  target_compile_options(${folder}_headers_alone PRIVATE -g0)
  target_compile_definitions(${folder}_headers_alone PRIVATE $<TARGET_PROPERTY:${folder},COMPILE_DEFINITIONS>)
  set_target_properties(${folder}_headers_alone PROPERTIES CXX_CLANG_TIDY "" UNITY_BUILD OFF)
endforeach()

# And all of them together, in one source: a name that two folders give to two
# different types does not compile there. The linker would say nothing and keep one
# of the two, as it did with a `Basis` of the solver and a `Basis` of feed figures.
set(source ${CMAKE_CURRENT_BINARY_DIR}/headers/together.cpp)
file(CONFIGURE OUTPUT ${source} CONTENT "@together@" @ONLY)
add_library(headers_together OBJECT ${source})
foreach(folder solver model feeds scenarios)
  target_link_libraries(headers_together PRIVATE $<TARGET_PROPERTY:${folder},LINK_LIBRARIES>)
  target_compile_definitions(headers_together PRIVATE $<TARGET_PROPERTY:${folder},COMPILE_DEFINITIONS>)
endforeach()
set_target_properties(headers_together PROPERTIES CXX_CLANG_TIDY "")

# Mistakes the types must refuse. Each file holds a mistake and its right twin;
# the comment beside the mistake says what the compiler must complain of.
file(GLOB mistakes CONFIGURE_DEPENDS ${CMAKE_CURRENT_LIST_DIR}/compile_fail/*.cpp)
foreach(file IN LISTS mistakes)
  cmake_path(GET file STEM name)
  set(compile ${CMAKE_CXX_COMPILER} -std=c++20 -fsyntax-only -I ${PROJECT_SOURCE_DIR} ${file})
  file(STRINGS ${file} complaint REGEX "// error: ")
  string(REGEX REPLACE ".*// error: " "" complaint "${complaint}")
  if(NOT complaint)
    message(FATAL_ERROR "${file} does not say what the compiler must complain of")
  endif()
  add_test(NAME compile_fail/${name} COMMAND ${compile} -DMISTAKE)
  set_tests_properties(compile_fail/${name} PROPERTIES
                       PASS_REGULAR_EXPRESSION "error: (${complaint})" ENVIRONMENT LC_ALL=C)
  add_test(NAME compile_fail/${name}/twin COMMAND ${compile})
endforeach()
