# RDKit as Debian packages it, without a CMake configuration of its own.
# find_package(RDKit REQUIRED COMPONENTS GraphMol SmilesParse ...) gives RDKit::GraphMol and so on;
# a component is the name of a library libRDKit<Component>.so. The headers count as system headers.
find_path(RDKit_INCLUDE_DIR GraphMol/GraphMol.h PATH_SUFFIXES rdkit)
find_package(Boost QUIET) # RDKit's headers include Boost's

foreach(component IN LISTS RDKit_FIND_COMPONENTS)
  find_library(RDKit_${component}_LIBRARY RDKit${component})
  mark_as_advanced(RDKit_${component}_LIBRARY)
  if(RDKit_${component}_LIBRARY)
    set(RDKit_${component}_FOUND TRUE)
  endif()
endforeach()

include(FindPackageHandleStandardArgs)
find_package_handle_standard_args(RDKit REQUIRED_VARS RDKit_INCLUDE_DIR Boost_FOUND
                                  HANDLE_COMPONENTS)
mark_as_advanced(RDKit_INCLUDE_DIR)

if(RDKit_FOUND)
  foreach(component IN LISTS RDKit_FIND_COMPONENTS)
    if(RDKit_${component}_FOUND AND NOT TARGET RDKit::${component})
      add_library(RDKit::${component} UNKNOWN IMPORTED)
      set_target_properties(
        RDKit::${component}
        PROPERTIES IMPORTED_LOCATION "${RDKit_${component}_LIBRARY}"
                   INTERFACE_INCLUDE_DIRECTORIES "${RDKit_INCLUDE_DIR}"
                   INTERFACE_SYSTEM_INCLUDE_DIRECTORIES "${RDKit_INCLUDE_DIR}")
      target_link_libraries(RDKit::${component} INTERFACE Boost::headers)
    endif()
  endforeach()
endif()
