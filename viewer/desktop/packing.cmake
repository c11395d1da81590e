# Run by cpack between installing and packing. What is packed is as old as the change log's newest entry, and its folders
# are open to everybody, whoever packs it, when, and under whatever umask.
if(NOT DEFINED ENV{SOURCE_DATE_EPOCH})
  file(STRINGS ${CMAKE_CURRENT_LIST_DIR}/changelog newest REGEX "^ -- " LIMIT_COUNT 1)
  string(REGEX REPLACE ".*>  " "" newest ${newest})
  execute_process(COMMAND date -d ${newest} +%s OUTPUT_VARIABLE seconds OUTPUT_STRIP_TRAILING_WHITESPACE
                  COMMAND_ERROR_IS_FATAL ANY)
  set(ENV{SOURCE_DATE_EPOCH} ${seconds})
endif()
file(CHMOD_RECURSE ${CPACK_TEMPORARY_INSTALL_DIRECTORY}
     DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
