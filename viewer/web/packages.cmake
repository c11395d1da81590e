# The packages of the other builds, for the page: folders of headers. Given to CMake as
# CMAKE_PROJECT_TOP_LEVEL_INCLUDES with DEWTRAIL_POCKET_DEPS, the folder that viewer/web/fetch has filled.
# Nothing of the machine's own /usr/include may be seen, since it belongs to another C library.

# What is used of it, from the machine's headers, by links in a folder of their own.
set(pocket_headers ${CMAKE_BINARY_DIR}/headers)
file(MAKE_DIRECTORY ${pocket_headers})
foreach(name eigen3/Eigen eigen3/unsupported boost fmt toml++ nlohmann)
  get_filename_component(last ${name} NAME)
  if(NOT EXISTS ${pocket_headers}/${last})
    file(CREATE_LINK /usr/include/${name} ${pocket_headers}/${last} SYMBOLIC)
  endif()
endforeach()

function(pocket_package target)
  if(NOT TARGET ${target})
    add_library(${target} INTERFACE IMPORTED GLOBAL)
    target_include_directories(${target} SYSTEM INTERFACE ${pocket_headers})
  endif()
endfunction()

macro(pocket_provide method name)
  if("${name}" STREQUAL "Eigen3")
    pocket_package(Eigen3::Eigen)
  elseif("${name}" STREQUAL "Boost")
    pocket_package(Boost::headers)
  elseif("${name}" STREQUAL "TBB")
    pocket_package(TBB::tbb)
  elseif("${name}" STREQUAL "Threads")
    pocket_package(Threads::Threads)
  elseif("${name}" STREQUAL "fmt")
    pocket_package(fmt::fmt)  # its library: viewer/web/fmt_library.cpp
  elseif("${name}" STREQUAL "tomlplusplus")
    pocket_package(tomlplusplus::tomlplusplus)
  elseif("${name}" STREQUAL "SQLiteCpp")
    # Built here, in viewer/web.
  endif()
  set(${name}_FOUND TRUE)
endmacro()
cmake_language(SET_DEPENDENCY_PROVIDER pocket_provide SUPPORTED_METHODS FIND_PACKAGE)
