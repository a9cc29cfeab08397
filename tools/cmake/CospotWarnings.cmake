# Warnings as errors, and the sanitizers of a sanitizer build, for every target of the project.
# -Wrestrict is off: g++ 12 reports it falsely for "text" + std::string (GCC bug 105651).
add_library(cospot_warnings INTERFACE)
target_compile_options(
  cospot_warnings INTERFACE -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wnon-virtual-dtor
                            -Wold-style-cast -Wno-restrict -Werror)

if(COSPOT_SANITIZE)
  add_compile_options(-fsanitize=${COSPOT_SANITIZE} -fno-sanitize-recover=all)
  add_link_options(-fsanitize=${COSPOT_SANITIZE})
  # With sanitizers g++ sees uninitialised values in its own std::function (GCC bug 105562).
  target_compile_options(cospot_warnings INTERFACE -Wno-maybe-uninitialized)
endif()
