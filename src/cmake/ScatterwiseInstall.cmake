# Headers, libraries, the CMake package and the pkg-config file. The program
# and its man pages are installed by src/cli.
include(CMakePackageConfigHelpers)

set(package_folder "${CMAKE_INSTALL_LIBDIR}/cmake/scatterwise")

install(DIRECTORY include/scatterwise TYPE INCLUDE FILES_MATCHING PATTERN "*.h")
# Two export sets: users of the shared library need no GSL, cJSON or nettle
# development files, and must not be asked for them.
install(TARGETS scatterwise_shared EXPORT scatterwise_shared)
install(TARGETS scatterwise_static EXPORT scatterwise_static)
foreach(kind shared static)
  install(EXPORT scatterwise_${kind} NAMESPACE scatterwise::
    FILE scatterwise-${kind}.cmake DESTINATION ${package_folder})
endforeach()

configure_package_config_file(
  ${CMAKE_CURRENT_LIST_DIR}/scatterwise-config.cmake.in
  ${PROJECT_BINARY_DIR}/scatterwise-config.cmake
  INSTALL_DESTINATION ${package_folder})
write_basic_package_version_file(
  ${PROJECT_BINARY_DIR}/scatterwise-config-version.cmake
  COMPATIBILITY SameMinorVersion)
install(FILES
  ${PROJECT_BINARY_DIR}/scatterwise-config.cmake
  ${PROJECT_BINARY_DIR}/scatterwise-config-version.cmake
  DESTINATION ${package_folder})

# From the .pc file's own folder back to the prefix, so that the tree can be
# moved.
file(RELATIVE_PATH pc_to_prefix
  "/${CMAKE_INSTALL_LIBDIR}/pkgconfig" "/")
string(REGEX REPLACE "/$" "" pc_to_prefix "${pc_to_prefix}")
configure_file(${CMAKE_CURRENT_LIST_DIR}/scatterwise.pc.in
  ${PROJECT_BINARY_DIR}/scatterwise.pc @ONLY)
install(FILES ${PROJECT_BINARY_DIR}/scatterwise.pc
  DESTINATION ${CMAKE_INSTALL_LIBDIR}/pkgconfig)
