# The reader fed with random text: preset `fuzz`, by clang alone.
if(NOT CMAKE_CXX_COMPILER_ID STREQUAL "Clang")
  message(FATAL_ERROR "IDLEPOINT_FUZZING needs clang: configure with the preset `fuzz`.")
endif()

add_executable(fuzz_reader ${CMAKE_CURRENT_LIST_DIR}/language/fuzz_reader.cpp)
target_link_libraries(fuzz_reader PRIVATE idlepoint::language)
target_link_options(fuzz_reader PRIVATE -fsanitize=fuzzer)
idlepoint_flags(fuzz_reader)
