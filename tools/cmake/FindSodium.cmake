# The library sodium, for checksums: find_package(Sodium REQUIRED) gives Sodium::Sodium. The static
# library is preferred: few functions are needed, and each shared one makes every start later.
find_path(Sodium_INCLUDE_DIR sodium.h)
find_library(Sodium_LIBRARY NAMES libsodium.a sodium)

include(FindPackageHandleStandardArgs)
find_package_handle_standard_args(Sodium REQUIRED_VARS Sodium_LIBRARY Sodium_INCLUDE_DIR)
mark_as_advanced(Sodium_INCLUDE_DIR Sodium_LIBRARY)

if(Sodium_FOUND AND NOT TARGET Sodium::Sodium)
  add_library(Sodium::Sodium UNKNOWN IMPORTED)
  set_target_properties(
    Sodium::Sodium PROPERTIES IMPORTED_LOCATION "${Sodium_LIBRARY}"
                              INTERFACE_INCLUDE_DIRECTORIES "${Sodium_INCLUDE_DIR}")
endif()
