# scatterwise_layer(NAME SOURCES file... [SEES layer...] [LINK target...])
#
# One folder, one OBJECT target. Its include path holds the public headers, its
# own folder and the folders of the layers it may see, so an upward include
# does not compile. SEES is transitive only where it says so.
function(scatterwise_layer name)
  cmake_parse_arguments(LAYER "" "" "SOURCES;SEES;LINK" ${ARGN})
  add_library(scw_${name} OBJECT ${LAYER_SOURCES})
  scatterwise_flags(scw_${name})
  target_include_directories(scw_${name} PRIVATE
    ${PROJECT_SOURCE_DIR}/include ${CMAKE_CURRENT_SOURCE_DIR})
  foreach(seen IN LISTS LAYER_SEES)
    target_include_directories(scw_${name} PRIVATE
      ${PROJECT_SOURCE_DIR}/src/${seen})
  endforeach()
  foreach(library IN LISTS LAYER_LINK)
    target_include_directories(scw_${name} SYSTEM PRIVATE
      $<TARGET_PROPERTY:${library},INTERFACE_INCLUDE_DIRECTORIES>)
  endforeach()
  set_property(GLOBAL APPEND PROPERTY SCATTERWISE_LAYERS ${name})
endfunction()
