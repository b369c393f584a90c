# What `cmake --install` lays down: the program, the layers as libraries with their headers, a
# package file for find_package(idlepoint), the stage files and the guide.
include(CMakePackageConfigHelpers)

set(IDLEPOINT_LAYERS values complaints devices circuit language solve answers report)
set(package_dir ${CMAKE_INSTALL_LIBDIR}/cmake/idlepoint)

install(TARGETS idlepoint RUNTIME)

list(TRANSFORM IDLEPOINT_LAYERS PREPEND idlepoint_ OUTPUT_VARIABLE layer_targets)
install(TARGETS ${layer_targets} EXPORT idlepointTargets
        FILE_SET HEADERS DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/idlepoint
        FILE_SET lone_headers DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/idlepoint)
install(EXPORT idlepointTargets NAMESPACE idlepoint:: DESTINATION ${package_dir})

configure_package_config_file(
  ${CMAKE_CURRENT_LIST_DIR}/idlepointConfig.cmake.in
  ${PROJECT_BINARY_DIR}/idlepointConfig.cmake INSTALL_DESTINATION ${package_dir})
# Before 1.0 a minor version may change the interface.
write_basic_package_version_file(${PROJECT_BINARY_DIR}/idlepointConfigVersion.cmake
                                 COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/idlepointConfig.cmake
              ${PROJECT_BINARY_DIR}/idlepointConfigVersion.cmake DESTINATION ${package_dir})

install(DIRECTORY netlists DESTINATION ${CMAKE_INSTALL_DATADIR}/idlepoint
        PATTERN broken EXCLUDE PATTERN drafts EXCLUDE PATTERN shelf EXCLUDE)
# The shelf of types with its points files, and the drafts, where cli/data_folder.cpp looks for them.
install(DIRECTORY netlists/shelf netlists/drafts DESTINATION ${CMAKE_INSTALL_DATADIR}/idlepoint)
install(DIRECTORY docs/ DESTINATION ${CMAKE_INSTALL_DOCDIR} FILES_MATCHING PATTERN *.md)
install(FILES LICENSE DESTINATION ${CMAKE_INSTALL_DOCDIR})
