# Flags of our own targets; nothing leaks to those who link the library.
find_package(PkgConfig REQUIRED)
find_package(Threads REQUIRED)
pkg_check_modules(GSL REQUIRED IMPORTED_TARGET gsl)
pkg_check_modules(CJSON REQUIRED IMPORTED_TARGET libcjson)
pkg_check_modules(NETTLE REQUIRED IMPORTED_TARGET nettle)
# Headers only.
find_path(SCATTERWISE_RANDOM123_INCLUDE Random123/philox.h)
if(NOT SCATTERWISE_RANDOM123_INCLUDE)
  message(FATAL_ERROR "Random123/philox.h was not found; on Debian it is in "
    "the package librandom123-dev")
endif()
mark_as_advanced(SCATTERWISE_RANDOM123_INCLUDE)

function(scatterwise_flags target)
  target_compile_definitions(${target} PRIVATE
    _GNU_SOURCE SCATTERWISE_VERSION="${PROJECT_VERSION}")
  # -ffp-contract=off: the same bytes whatever the machine can fuse.
  target_compile_options(${target} PRIVATE
    -Wall -Wextra -Wpedantic -Wshadow -Wconversion
    -fvisibility=hidden -ffp-contract=off
    -fmacro-prefix-map=${PROJECT_SOURCE_DIR}/=)
  if(SCATTERWISE_WERROR)
    target_compile_options(${target} PRIVATE -Werror)
  endif()
  if(SCATTERWISE_SANITIZE)
    target_compile_options(${target} PRIVATE
      -fsanitize=${SCATTERWISE_SANITIZE} -fno-sanitize-recover=all
      -fno-omit-frame-pointer -g)
    target_link_options(${target} PRIVATE -fsanitize=${SCATTERWISE_SANITIZE})
  endif()
endfunction()
