// The entry point of every test executable, compiled once.
#define CATCH_CONFIG_MAIN
#include <catch2/catch.hpp>
