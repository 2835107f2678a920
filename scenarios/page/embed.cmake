# Puts the files of this folder and Chart.js into ${embedded_source}, so that the program
# needs none of them when it runs.
find_file(HAYMOW_CHART_JS chart.min.js PATHS /usr/share/javascript/chart.js
          DOC "Chart.js 3 (Debian: libjs-chart.js)" REQUIRED)
find_path(HAYMOW_MUSTACHE_INCLUDE_DIR kainjow/mustache.hpp REQUIRED
          DOC "Mustache templates (Debian: libkainjow-mustache-dev)")

set(page_files form.html form.css form.js fields.js plan.js whatif.js report.html parts.html section.html sheet.html style.css sheet.css plots.js)
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS
             ${PROJECT_SOURCE_DIR}/docs/reference/scenario.schema.json)
foreach(file IN LISTS page_files)
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${CMAKE_CURRENT_LIST_DIR}/${file})
endforeach()
file(READ ${CMAKE_CURRENT_LIST_DIR}/report.html HAYMOW_PAGE_REPORT)
file(READ ${CMAKE_CURRENT_LIST_DIR}/section.html HAYMOW_PAGE_SECTION)
file(READ ${CMAKE_CURRENT_LIST_DIR}/form.html HAYMOW_PAGE_FORM)
file(READ ${CMAKE_CURRENT_LIST_DIR}/form.css HAYMOW_PAGE_FORM_STYLE)
file(READ ${CMAKE_CURRENT_LIST_DIR}/form.js HAYMOW_PAGE_FORM_SCRIPT)
file(READ ${CMAKE_CURRENT_LIST_DIR}/plan.js HAYMOW_PAGE_PLAN)
file(READ ${CMAKE_CURRENT_LIST_DIR}/whatif.js HAYMOW_PAGE_WHATIF)
file(READ ${CMAKE_CURRENT_LIST_DIR}/fields.js HAYMOW_PAGE_FIELDS)
file(READ ${CMAKE_CURRENT_LIST_DIR}/parts.html HAYMOW_PAGE_PARTS)
file(READ ${PROJECT_SOURCE_DIR}/docs/reference/scenario.schema.json HAYMOW_PAGE_SCHEMA)
file(READ ${CMAKE_CURRENT_LIST_DIR}/sheet.html HAYMOW_PAGE_SHEET)
file(READ ${CMAKE_CURRENT_LIST_DIR}/sheet.css HAYMOW_PAGE_SHEET_STYLE)
file(READ ${CMAKE_CURRENT_LIST_DIR}/style.css HAYMOW_PAGE_STYLE)
file(READ ${CMAKE_CURRENT_LIST_DIR}/plots.js HAYMOW_PAGE_PLOTS)

file(READ ${HAYMOW_CHART_JS} chart)
string(LENGTH "${chart}" length)
set(piece 60000)
set(HAYMOW_PAGE_CHART "")
set(at 0)
while(at LESS length)
  string(SUBSTRING "${chart}" ${at} ${piece} text)
  string(APPEND HAYMOW_PAGE_CHART "\n      .append(R\"embedded(${text})embedded\")")
  math(EXPR at "${at} + ${piece}")
endwhile()

set(embedded_source ${CMAKE_CURRENT_BINARY_DIR}/page/embedded.cpp)
configure_file(${CMAKE_CURRENT_LIST_DIR}/embedded.cpp.in ${embedded_source} @ONLY)
