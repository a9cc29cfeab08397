# cospot_module(PATH [ROOT folder] [INSTALLED] [SHARED] [CALCULATES] [PLAIN] USES module... LINK lib... HIDDEN lib...)
# One folder with code, ROOT/PATH: target cospot_NAME, NAME being the end of PATH. Includes are
# written "PATH/header.h". A module sees itself, what it USES, and what these use: the headers of
# each are reached by a link in a folder of its own. What it USES must be there before it, so that
# no circle can be declared.
#   INSTALLED  another program gets it too, as cospot::NAME
#   CALCULATES as fast as can be, under sanitizers too; what reads and writes is built faster instead
#   PLAIN      without the precompiled headers of the program: it is compiled with other options
#   LINK       libraries that its headers need; HIDDEN: those that only its sources need
function(cospot_module path)
  cmake_parse_arguments(ARG "INSTALLED;SHARED;CALCULATES;PLAIN" "ROOT" "USES;LINK;HIDDEN" ${ARGN})
  if(NOT ARG_ROOT)
    set(ARG_ROOT ${CMAKE_CURRENT_SOURCE_DIR})
  endif()
  get_filename_component(name ${path} NAME)
  set(target cospot_${name})
  set(kind STATIC)
  if(ARG_SHARED)
    set(kind SHARED)
  endif()
  file(GLOB sources CONFIGURE_DEPENDS ${ARG_ROOT}/${path}/*.cpp)
  add_library(${target} ${kind} ${sources})
  add_library(cospot::${name} ALIAS ${target})
  target_compile_features(${target} PUBLIC cxx_std_20)

  set(headers ${PROJECT_BINARY_DIR}/headers/${name})
  get_filename_component(above ${headers}/${path} DIRECTORY)
  file(MAKE_DIRECTORY ${above})
  file(CREATE_LINK ${ARG_ROOT}/${path} ${headers}/${path} SYMBOLIC)
  target_include_directories(${target} PUBLIC $<BUILD_INTERFACE:${headers}>
                                              $<INSTALL_INTERFACE:include/cospot>)

  foreach(used IN LISTS ARG_USES)
    if(NOT TARGET cospot_${used})
      message(FATAL_ERROR "${path} uses ${used}, which is not declared before it")
    endif()
    target_link_libraries(${target} PUBLIC cospot::${used})
  endforeach()
  target_link_libraries(${target} PUBLIC ${ARG_LINK} PRIVATE ${ARG_HIDDEN}
                                                             $<BUILD_INTERFACE:cospot_warnings>)
  if(COSPOT_PRECOMPILE AND NOT ARG_INSTALLED AND NOT ARG_PLAIN)
    cospot_precompile(${target} ${ARG_CALCULATES})
  endif()
  if(ARG_CALCULATES)
    cospot_calculates(${target})
  elseif(NOT ARG_INSTALLED AND NOT ARG_PLAIN)
    target_compile_options(${target} PRIVATE $<$<CONFIG:Release>:-O1>)
  endif()
  if(ARG_INSTALLED)
    set_target_properties(${target} PROPERTIES EXPORT_NAME ${name})
    install(
      TARGETS ${target}
      EXPORT cospotTargets
      ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR}
      LIBRARY DESTINATION ${CMAKE_INSTALL_LIBDIR})
    install(DIRECTORY ${ARG_ROOT}/${path}/ DESTINATION include/cospot/${path}
            FILES_MATCHING PATTERN "*.h")
  endif()
endfunction()

# The headers that most files of the program read, compiled once for all modules with the same options.
function(cospot_precompile target calculates)
  if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
    # With precompiled headers GCC 12 sees overflows in the standard library's own strings.
    target_compile_options(${target} PRIVATE -Wno-array-bounds -Wno-stringop-overflow
                                             -Wno-stringop-overread)
  endif()
  # As Boost's own target defines it: all who share the headers have to.
  target_compile_definitions(${target} PRIVATE BOOST_ALL_NO_LIB)
  set(kind cospot_precompiled)
  if(calculates)
    set(kind cospot_precompiled_calculating)
  endif()
  get_property(host GLOBAL PROPERTY ${kind})
  if(host)
    target_precompile_headers(${target} REUSE_FROM ${host})
  else()
    set_property(GLOBAL PROPERTY ${kind} ${target})
    target_precompile_headers(
      ${target} PRIVATE <algorithm> <cmath> <filesystem> <functional> <map> <memory> <optional> <set>
      <span> <sstream> <string> <vector> <boost/program_options.hpp> <Eigen/Dense> <fmt/format.h>
      <fmt/ranges.h> <nlohmann/json.hpp>)
    target_link_libraries(${target} PRIVATE Eigen3::Eigen)
  endif()
endfunction()

# cospot_embed(MODULE HEADER VARIABLE file...): HEADER.h out of HEADER.h.in, with the text of each file
# in place of @VARIABLE@, for the sources of the module.
function(cospot_embed module header)
  set(generated ${CMAKE_CURRENT_BINARY_DIR}/generated)
  while(ARGN)
    list(POP_FRONT ARGN variable file)
    file(READ ${file} ${variable})
    set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${file})
  endwhile()
  configure_file(${header}.h.in ${generated}/${header}.h @ONLY)
  target_include_directories(cospot_${module} PRIVATE ${generated})
endfunction()

# cospot_embed_folder(MODULE HEADER FOLDER): as cospot_embed, with a pair {name, text} of each file of
# the folder in place of @TEXTS@.
function(cospot_embed_folder module header folder)
  file(GLOB files CONFIGURE_DEPENDS RELATIVE ${CMAKE_CURRENT_SOURCE_DIR}/${folder} ${folder}/*)
  set(TEXTS)
  foreach(file IN LISTS files)
    file(READ ${folder}/${file} text)
    set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${folder}/${file})
    string(APPEND TEXTS "    {\"${file}\", R\"page(${text})page\"},\n")
  endforeach()
  set(generated ${CMAKE_CURRENT_BINARY_DIR}/generated)
  configure_file(${header}.h.in ${generated}/${header}.h @ONLY)
  target_include_directories(cospot_${module} PRIVATE ${generated})
endfunction()

# cospot_coroutines(TARGET): what the compilers of Debian 12 need for Asio's coroutines.
function(cospot_coroutines target)
  if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
    # GCC 12 takes the allocator of coroutine frames for a mismatch.
    target_compile_options(${target} PRIVATE -Wno-mismatched-new-delete)
  elseif(CMAKE_CXX_COMPILER_VERSION VERSION_LESS 15)
    # Clang 14 has coroutines but does not say so to the standard library of GCC, and cannot check
    # the types of functions that they are split into.
    target_compile_options(${target} PRIVATE -D__cpp_impl_coroutine=201902L -Wno-builtin-macro-redefined
                                             -fno-sanitize=function)
    target_compile_definitions(${target} PRIVATE BOOST_ASIO_HAS_CO_AWAIT=1
                                                 BOOST_ASIO_HAS_STD_COROUTINE=1)
  endif()
endfunction()
