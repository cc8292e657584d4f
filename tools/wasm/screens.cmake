# The second browser engine, for the pages that plan, compare, warn and keep the calendar: the picker's parts
# and what these pages need besides. Apart, so that the picker stays small.
file(GLOB SCREENS_SOURCES CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/tools/screens/*.cc ${PROJECT_SOURCE_DIR}/tools/wasm/screens/*.cc)
foreach(part lib/texts lib/things lib/ics render/voice draw/draw draw/escape)
  list(APPEND SCREENS_SOURCES ${PROJECT_SOURCE_DIR}/tools/${part}.cc)
endforeach()
find_path(NLOHMANN_INCLUDE nlohmann/json.hpp REQUIRED)
file(CREATE_LINK ${NLOHMANN_INCLUDE}/nlohmann ${CMAKE_BINARY_DIR}/wasm/include/nlohmann SYMBOLIC)
set(SCREENS_OBJECTS ${WASM_OBJECTS})
foreach(source ${SCREENS_SOURCES})
  file(RELATIVE_PATH name ${PROJECT_SOURCE_DIR} ${source})
  string(REPLACE "/" "_" name ${name})
  wasm_object(${source} ${CMAKE_BINARY_DIR}/wasm/${name}.o -DJSON_NOEXCEPTION=1 -DJSON_HAS_FILESYSTEM=0 -DJSON_HAS_EXPERIMENTAL_FILESYSTEM=0 -D_WASI_EMULATED_SIGNAL)
  list(APPEND SCREENS_OBJECTS ${CMAKE_BINARY_DIR}/wasm/${name}.o)
endforeach()
wasm_link(screens ${SCREENS_OBJECTS})
# Not at the same time: both name the same objects.
add_dependencies(wasm_screens wasm_picker)
