# Oracle: 12 V across 3k and 1k stand at 12 x 1 / (3 + 1) = 3 V in the middle.
#
# Installs the build into a folder of its own, builds the consumer against it and runs it; then asks
# the installed program for its version. Run by ctest: cmake -D... -P install_and_use.cmake.
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
