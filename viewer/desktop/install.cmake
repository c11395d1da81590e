# What 'cmake --install' puts where, and the Debian packages. Components: program, elevation, library.

install(TARGETS dewtrail RUNTIME DESTINATION bin COMPONENT program)
install(DIRECTORY greens/ DESTINATION share/dewtrail/greens COMPONENT program
        FILES_MATCHING PATTERN *.toml PATTERN *.csv PATTERN *.asc PATTERN gdal EXCLUDE)
if(TARGET dewtrail_gdal)
  install(TARGETS dewtrail_gdal LIBRARY DESTINATION lib/dewtrail COMPONENT elevation)
endif()
set(desktop viewer/desktop)
if(TARGET dewtrail_window)
  install(TARGETS dewtrail-window RUNTIME DESTINATION bin COMPONENT program)
  install(FILES ${desktop}/dewtrail.desktop DESTINATION share/applications COMPONENT program)
  install(FILES ${desktop}/dewtrail.svg DESTINATION share/icons/hicolor/scalable/apps COMPONENT program)
  install(FILES ${desktop}/org.dewtrail.Dewtrail.metainfo.xml DESTINATION share/metainfo COMPONENT program)
endif()

install(FILES viewer/results.schema.json DESTINATION share/dewtrail COMPONENT program)
# The page for a browser, where './viewer/run pocket' has built it.
install(FILES build/pocket/dewtrail.html DESTINATION share/dewtrail COMPONENT program OPTIONAL)

# Man pages and completion say what the program says of itself.
set(made ${CMAKE_BINARY_DIR}/made)
if(NOT DEWTRAIL_SANITIZE AND NOT DEWTRAIL_FUZZ)
  set(pages ${made}/bash ${made}/zsh ${made}/fish ${made}/changelog.gz)
  add_custom_command(
    OUTPUT ${pages}
    COMMAND ${CMAKE_SOURCE_DIR}/${desktop}/make-pages $<TARGET_FILE:dewtrail> ${PROJECT_VERSION} ${made}
    COMMAND gzip -9nc ${CMAKE_SOURCE_DIR}/${desktop}/changelog > ${made}/changelog.gz
    DEPENDS dewtrail ${desktop}/make-pages ${desktop}/changelog
    VERBATIM)
  add_custom_target(pages ALL DEPENDS ${pages})
  install(DIRECTORY ${made}/man1 DESTINATION share/man COMPONENT program)
  install(FILES ${made}/bash DESTINATION share/bash-completion/completions RENAME dewtrail COMPONENT program)
  install(FILES ${made}/zsh DESTINATION share/zsh/vendor-completions RENAME _dewtrail COMPONENT program)
  install(FILES ${made}/fish DESTINATION share/fish/vendor_completions.d RENAME dewtrail.fish COMPONENT program)
endif()

if(NOT DEWTRAIL_PACKAGE)
  return()
endif()

set(names dewtrail dewtrail-elevation libdewtrail-dev)
set(parts program elevation library)
foreach(name part IN ZIP_LISTS names parts)
  install(FILES ${desktop}/copyright DESTINATION share/doc/${name} COMPONENT ${part})
  install(FILES ${made}/changelog.gz DESTINATION share/doc/${name} COMPONENT ${part})
  string(TOUPPER ${part} PART)
  set(CPACK_DEBIAN_${PART}_PACKAGE_NAME ${name})
  set(CPACK_DEBIAN_${PART}_FILE_NAME DEB-DEFAULT)
endforeach()

set(CPACK_GENERATOR DEB)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_COMPONENTS_ALL ${parts})
set(CPACK_COMPONENTS_GROUPING ONE_PER_GROUP)
set(CPACK_COMPONENTS_GROUPING IGNORE)
set(CPACK_PACKAGE_NAME dewtrail)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_PRE_BUILD_SCRIPTS ${CMAKE_CURRENT_LIST_DIR}/packing.cmake)
set(CPACK_PACKAGE_CONTACT "Dewtrail developers <developers@dewtrail.example>")
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION education)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_DEPENDS "fonts-sil-gentiumplus, fonts-lato")
set(CPACK_DEBIAN_PROGRAM_PACKAGE_RECOMMENDS "fonts-dejavu-core, xdg-utils")
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SUGGESTS "ffmpeg, dewtrail-elevation")
set(CPACK_DEBIAN_PROGRAM_DESCRIPTION "read and pace trainer for putting greens
Rolls a golf ball over a sloped green and finds the line, the apex and the
pace that hole a putt; tells how much room and what odds there are, deals
putts to practise, reviews misses, and surveys greens. On the command line
and in a window. For practice and teaching; the Rules of Golf restrict such
aids during a round.")
set(CPACK_DEBIAN_ELEVATION_PACKAGE_SECTION education)
set(CPACK_DEBIAN_ELEVATION_PACKAGE_DEPENDS "dewtrail (= ${PROJECT_VERSION})")
set(CPACK_DEBIAN_ELEVATION_DESCRIPTION "elevation files for the putting-green trainer
Lets dewtrail make greens from GeoTIFF files and ASCII grids, by GDAL.")
set(CPACK_DEBIAN_LIBRARY_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_LIBRARY_PACKAGE_SHLIBDEPS OFF)
set(CPACK_DEBIAN_LIBRARY_PACKAGE_DEPENDS "libeigen3-dev, libboost-dev, libtbb-dev")
set(CPACK_DEBIAN_LIBRARY_DESCRIPTION "physics of putts on sloped greens as a library
Roll, read, capture by the hole, odds and surveys of greens in C++20; found
by CMake's find_package(dewtrail).")
include(CPack)
