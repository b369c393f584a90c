# Oracle: 12 V across 3k and 1k stand at 12 x 1 / (3 + 1) = 3 V in the middle.
#
# Installs the build into a folder of its own, builds the consumer against it and runs it; then asks
# the installed program for its version, and, moved elsewhere, for types of its shelf. Run by ctest: cmake -D... -P install_and_use.cmake.
set(prefix ${WORK_DIR}/prefix)
set(consumer ${WORK_DIR}/consumer)
file(REMOVE_RECURSE ${WORK_DIR})

function(run)
  execute_process(COMMAND ${ARGN} OUTPUT_VARIABLE output ERROR_VARIABLE output RESULT_VARIABLE result)
  set(output "${output}" PARENT_SCOPE)
  if(NOT result EQUAL 0)
    list(JOIN ARGN " " command)
    message(FATAL_ERROR "${command}\nended with ${result}:\n${output}")
  endif()
endfunction()

run(${CMAKE_COMMAND} --install ${BUILD_DIR} --prefix ${prefix})
run(${CMAKE_COMMAND} -S ${CMAKE_CURRENT_LIST_DIR} -B ${consumer} -G ${GENERATOR}
    -DCMAKE_PREFIX_PATH=${prefix} -DCMAKE_CXX_COMPILER=${CXX_COMPILER}
    -DCMAKE_BUILD_TYPE=${BUILD_TYPE} "-DCMAKE_CXX_FLAGS=${CXX_FLAGS}")
run(${CMAKE_COMMAND} --build ${consumer})
run(${consumer}/consumer)
if(NOT output STREQUAL "tap 3.000000 V\n")
  message(FATAL_ERROR "The consumer should print \"tap 3.000000 V\", and printed:\n${output}")
endif()

run(${prefix}/bin/idlepoint --version)
if(NOT output MATCHES "${VERSION}")
  message(FATAL_ERROR "The installed program should be ${VERSION}, and says:\n${output}")
endif()
foreach(file IN ITEMS share/idlepoint/netlists include/idlepoint/solve/solve_stage.hpp)
  if(NOT EXISTS ${prefix}/${file})
    message(FATAL_ERROR "${file} is not installed")
  endif()
endforeach()

# A stage far from the program takes its transistor from the shelf that was installed beside it.
set(stage ${WORK_DIR}/one.stage)
function(check_with_type name)
  file(WRITE ${stage} "stage \"One\"\ntypes shelf\nrail vpos 9V\nresistor R1 vpos b 1M\n"
       "resistor R2 vpos c 1k\nnpn Q1 c=c b=b e=gnd type=${name}\n")
  run(${ARGN} check ${stage})
endfunction()
check_with_type(2N3055 ${prefix}/bin/idlepoint)

# Moved as a whole it takes its shelf along: only there is this type.
set(moved ${WORK_DIR}/moved)
file(RENAME ${prefix} ${moved})
file(WRITE ${moved}/share/idlepoint/shelf/own.types "type npn only-here gain=50 vbe=0.6V vbe_at=1mA\n")
check_with_type(only-here ${moved}/bin/idlepoint)

# Called through a link, too.
file(CREATE_LINK ${moved}/bin/idlepoint ${WORK_DIR}/linked SYMBOLIC)
check_with_type(only-here ${WORK_DIR}/linked)
