# How a layer is declared: one static library, its own sources and headers by name, and the layers
# it may use. tests/structure checks that no file includes a layer that is not listed here.

# Those in the generator expression are known to g++ alone; its -Wrestrict warns falsely, inside
# <string>, wherever g++ 12 inlines an addition of strings.
set(IDLEPOINT_WARNINGS
    -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion -Wold-style-cast
    -Wnon-virtual-dtor -Woverloaded-virtual -Wdouble-promotion -Wcast-align -Wformat=2
    $<$<CXX_COMPILER_ID:GNU>:-Wduplicated-cond;-Wduplicated-branches;-Wlogical-op;-Wno-restrict>)

# Above the solver nothing shifts, casts or points by hand: of the sanitizers the address sanitizer
# alone, for a sixth of the build. The reader meets all of them in the fuzz target.
set(IDLEPOINT_ADDRESS_ALONE $<$<AND:$<CONFIG:Debug>,$<NOT:$<BOOL:${IDLEPOINT_FUZZING}>>>:-fno-sanitize=undefined>)
# Where words are made and nothing is reckoned: quicker to build as well.
set(IDLEPOINT_WORDS_FLAGS ${IDLEPOINT_ADDRESS_ALONE} $<$<CONFIG:Release>:-O2>)

# Flags of every target of ours. Contraction is off so that a build with fused multiply-add gives
# the same bits as one without.
function(idlepoint_flags target)
  target_compile_features(${target} PUBLIC cxx_std_20)
  target_compile_options(${target} PRIVATE ${IDLEPOINT_WARNINGS} -ffp-contract=off
                         $<$<BOOL:${IDLEPOINT_STRICT}>:-Werror>
                         $<$<BOOL:${IDLEPOINT_FUZZING}>:-fsanitize=fuzzer-no-link>)
  set_target_properties(${target} PROPERTIES UNITY_BUILD ${IDLEPOINT_UNITY} UNITY_BUILD_BATCH_SIZE 8)
endfunction()

# idlepoint_layer(NAME SOURCES a.cpp ... HEADERS a.hpp ... USES layer ... LINKS target ...
#                 PRIVATE_LINKS target ...)
#
# LINKS are seen by whoever uses the layer's headers. PRIVATE_LINKS are seen by its sources alone: a
# header-only library among them is not asked of an installed program's builder.
function(idlepoint_layer name)
  cmake_parse_arguments(LAYER "" "" "SOURCES;HEADERS;USES;LINKS;PRIVATE_LINKS" ${ARGN})
  set(target idlepoint_${name})
  add_library(${target} STATIC ${LAYER_SOURCES})
  add_library(idlepoint::${name} ALIAS ${target})
  # A header with a source of its own is compiled first of all in that source (tests/structure); the
  # preset `headers` compiles the others alone.
  set(own_headers ${LAYER_SOURCES})
  list(TRANSFORM own_headers REPLACE "cpp$" "hpp")
  set(lone_headers ${LAYER_HEADERS})
  list(REMOVE_ITEM lone_headers ${own_headers})
  list(REMOVE_ITEM LAYER_HEADERS ${lone_headers})
  target_sources(${target} PUBLIC
    FILE_SET HEADERS BASE_DIRS ${PROJECT_SOURCE_DIR}/lib FILES ${LAYER_HEADERS}
    FILE_SET lone_headers TYPE HEADERS BASE_DIRS ${PROJECT_SOURCE_DIR}/lib FILES ${lone_headers})
  set_target_properties(${target} PROPERTIES EXPORT_NAME ${name} VERIFY_INTERFACE_HEADER_SETS ON
                        INTERFACE_HEADER_SETS_TO_VERIFY lone_headers)
  list(TRANSFORM LAYER_USES PREPEND idlepoint::)
  target_link_libraries(${target} PUBLIC ${LAYER_USES} ${LAYER_LINKS})
  foreach(link IN LISTS LAYER_PRIVATE_LINKS)
    get_target_property(type ${link} TYPE)
    if(type STREQUAL "INTERFACE_LIBRARY")
      target_link_libraries(${target} PRIVATE $<BUILD_INTERFACE:${link}>)
    else()
      target_link_libraries(${target} PRIVATE ${link})
    endif()
  endforeach()
  idlepoint_flags(${target})
endfunction()
