# How a layer is declared: one static library, its own sources and headers by name, and the layers
# it may use. tests/structure checks that no file includes a layer that is not listed here.

# The three after the generic list are known to g++ alone.
set(IDLEPOINT_WARNINGS
    -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion -Wold-style-cast
    -Wnon-virtual-dtor -Woverloaded-virtual -Wdouble-promotion -Wcast-align -Wformat=2
    $<$<CXX_COMPILER_ID:GNU>:-Wduplicated-cond;-Wduplicated-branches;-Wlogical-op>)

# Flags of every target of ours. Contraction is off so that a build with fused multiply-add gives
# the same bits as one without.
function(idlepoint_flags target)
  target_compile_features(${target} PUBLIC cxx_std_20)
  target_compile_options(${target} PRIVATE ${IDLEPOINT_WARNINGS} -ffp-contract=off
                         $<$<BOOL:${IDLEPOINT_STRICT}>:-Werror>)
endfunction()

# idlepoint_layer(NAME SOURCES a.cpp ... HEADERS a.hpp ... USES layer ... LINKS target ...)
function(idlepoint_layer name)
  cmake_parse_arguments(LAYER "" "" "SOURCES;HEADERS;USES;LINKS;PRIVATE_LINKS" ${ARGN})
  add_library(idlepoint_${name} STATIC ${LAYER_SOURCES})
  add_library(idlepoint::${name} ALIAS idlepoint_${name})
  set_target_properties(idlepoint_${name} PROPERTIES EXPORT_NAME ${name}
                        VERIFY_INTERFACE_HEADER_SETS ON)
  target_sources(idlepoint_${name} PUBLIC FILE_SET HEADERS BASE_DIRS ${PROJECT_SOURCE_DIR}/lib
                 FILES ${LAYER_HEADERS})
  foreach(used IN LISTS LAYER_USES)
    target_link_libraries(idlepoint_${name} PUBLIC idlepoint::${used})
  endforeach()
  target_link_libraries(idlepoint_${name} PUBLIC ${LAYER_LINKS}
                        PRIVATE $<BUILD_INTERFACE:${LAYER_PRIVATE_LINKS}>)
  idlepoint_flags(idlepoint_${name})
endfunction()
