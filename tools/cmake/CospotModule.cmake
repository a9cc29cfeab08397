# cospot_module(NAME [SHARED] HEADER_ROOT dir SOURCES ... PUBLIC ... PRIVATE ...)
# One module of the project: target cospot_NAME, alias cospot::NAME, installed and exported.
# HEADER_ROOT is the folder that #include paths start from; headers install below include/cospot.
function(cospot_module name)
  cmake_parse_arguments(ARG "SHARED" "HEADER_ROOT" "SOURCES;HEADERS;PUBLIC;PRIVATE" ${ARGN})
  set(kind STATIC)
  if(ARG_SHARED)
    set(kind SHARED)
  endif()
  set(target cospot_${name})
  add_library(${target} ${kind} ${ARG_SOURCES})
  add_library(cospot::${name} ALIAS ${target})
  set_target_properties(${target} PROPERTIES EXPORT_NAME ${name})
  target_compile_features(${target} PUBLIC cxx_std_20)
  target_sources(${target} PUBLIC FILE_SET HEADERS BASE_DIRS ${ARG_HEADER_ROOT} FILES ${ARG_HEADERS})
  target_include_directories(${target} PUBLIC $<BUILD_INTERFACE:${ARG_HEADER_ROOT}>
                                              $<INSTALL_INTERFACE:include/cospot>)
  target_link_libraries(${target} PUBLIC ${ARG_PUBLIC} PRIVATE ${ARG_PRIVATE}
                                                               $<BUILD_INTERFACE:cospot_warnings>)
  install(
    TARGETS ${target}
    EXPORT cospotTargets
    ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR}
    LIBRARY DESTINATION ${CMAKE_INSTALL_LIBDIR}
    FILE_SET HEADERS DESTINATION include/cospot)
endfunction()
