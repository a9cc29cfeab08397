# Install and export: find_package(cospot) gives each cospot_module to another C++ program, as
# cospot::shared, cospot::matcher and so on.
include(CMakePackageConfigHelpers)

set(config_dir ${CMAKE_INSTALL_LIBDIR}/cmake/cospot)
install(EXPORT cospotTargets NAMESPACE cospot:: DESTINATION ${config_dir})
configure_package_config_file(tools/cmake/cospotConfig.cmake.in
                              ${PROJECT_BINARY_DIR}/cospotConfig.cmake
                              INSTALL_DESTINATION ${config_dir})
write_basic_package_version_file(${PROJECT_BINARY_DIR}/cospotConfigVersion.cmake
                                 COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/cospotConfig.cmake
              ${PROJECT_BINARY_DIR}/cospotConfigVersion.cmake
              tools/cmake/FindInChI.cmake tools/cmake/FindRDKit.cmake DESTINATION ${config_dir})
