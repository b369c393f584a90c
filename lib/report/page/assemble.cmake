cmake_minimum_required(VERSION 3.25)  # else @MARKS@ would be taken for variables
# Puts the page together: cmake -DPAGE_DIR=... -DSCRIPTS="a.js b.js" -DD3=... -DOUT=... -P assemble.cmake
#
# Each mark stands alone on its line of sheet.html.
function(put mark file)
  file(READ "${file}" text)
  string(REPLACE "${mark}" "${text}" page "${page}")
  set(page "${page}" PARENT_SCOPE)
endfunction()

file(READ "${PAGE_DIR}/sheet.html" page)
set(all_scripts "")
separate_arguments(SCRIPTS)
foreach(script IN LISTS SCRIPTS)
  file(READ "${PAGE_DIR}/${script}" text)
  string(APPEND all_scripts "${text}\n")
endforeach()
file(READ "${PAGE_DIR}/base.css" style)
file(READ "${PAGE_DIR}/sheet.css" text)
string(REPLACE "@STYLE@" "${style}${text}" page "${page}")
string(REPLACE "@SCRIPTS@" "${all_scripts}" page "${page}")
put("@D3@" "${D3}")
file(WRITE "${OUT}" "${page}")
