# Warnings as errors, and the sanitizers of a sanitizer or fuzz build, for every target.
# -Wrestrict is off: g++ 12 reports it falsely for "text" + std::string (GCC bug 105651); clang does
# not know it. -Woverlength-strings is off: embedded tables are longer than the 64 kB that every
# compiler must take; g++ and clang take any length.
add_library(cospot_warnings INTERFACE)
target_compile_options(
  cospot_warnings INTERFACE -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wnon-virtual-dtor
                            -Wold-style-cast -Wno-overlength-strings -Werror)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  # It takes what an optional does not hold for uninitialised, with -O1, and values in its own
  # std::function, with sanitizers (GCC bug 105562).
  target_compile_options(cospot_warnings INTERFACE -Wno-restrict -Wno-maybe-uninitialized)
endif()

if(COSPOT_SANITIZE)
  # With the standard library's own checks of indices and iterators. Without a check of each pointer
  # for null and alignment, a third of the code: the address sanitizer sees the fault that follows.
  add_compile_options(-fsanitize=${COSPOT_SANITIZE} -fno-sanitize=null,alignment,vptr,object-size
                      -fno-sanitize-recover=all -D_GLIBCXX_ASSERTIONS)
  add_link_options(-fsanitize=${COSPOT_SANITIZE})
endif()

if(COSPOT_FUZZ AND NOT CMAKE_CXX_COMPILER_ID STREQUAL "Clang")
  message(FATAL_ERROR "COSPOT_FUZZ needs clang++ (the presets \"fuzz\" and \"sanitizer\" set it)")
endif()

# cospot_fuzzed(TARGET): libFuzzer sees which code of the target an input reaches.
function(cospot_fuzzed target)
  if(COSPOT_FUZZ)
    target_compile_options(${target} PRIVATE -fsanitize=fuzzer-no-link)
  endif()
endfunction()

# cospot_calculates(TARGET): heavy numerics, which sanitizers make a hundred times slower unoptimised.
function(cospot_calculates target)
  if(COSPOT_SANITIZE)
    target_compile_options(${target} PRIVATE -O2)
  endif()
endfunction()
