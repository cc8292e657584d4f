# The browser engine: the same sources, compiled for wasm32 by a second compiler.
find_program(WASM_CLANG clang++-14 REQUIRED)
file(GLOB WASM_SOURCES CONFIGURE_DEPENDS
  ${PROJECT_SOURCE_DIR}/engine/src/*.cc ${PROJECT_SOURCE_DIR}/tools/wire/*.cc ${PROJECT_SOURCE_DIR}/tools/wasm/*.cc)
list(FILTER WASM_SOURCES EXCLUDE REGEX "/climate[^/]*\\.cc$")
file(GLOB WASM_HEADERS CONFIGURE_DEPENDS
  ${PROJECT_SOURCE_DIR}/engine/include/tenwinters/*.h ${PROJECT_SOURCE_DIR}/engine/src/*.h ${PROJECT_SOURCE_DIR}/tools/wire/*.h)
find_path(NLOHMANN_INCLUDE nlohmann/json.hpp REQUIRED)
set(WASM_FILE ${CMAKE_BINARY_DIR}/tenwinters.wasm)
set(WASM_OBJECTS)
# nlohmann lives in the system's include folder, which the wasm target must not see as a whole.
file(MAKE_DIRECTORY ${CMAKE_BINARY_DIR}/wasm/include)
file(CREATE_LINK ${NLOHMANN_INCLUDE}/nlohmann ${CMAKE_BINARY_DIR}/wasm/include/nlohmann SYMBOLIC)
set(WASM_FLAGS --target=wasm32-wasi -std=c++20 -fno-exceptions -fno-rtti -ffp-contract=off -DNDEBUG
  -DJSON_NOEXCEPTION=1 -DJSON_HAS_FILESYSTEM=0 -DJSON_HAS_EXPERIMENTAL_FILESYSTEM=0 -D_WASI_EMULATED_SIGNAL
  -Wall -Wextra -Werror -fvisibility=hidden -ffunction-sections -fdata-sections
  -I${PROJECT_SOURCE_DIR}/engine/include -I${PROJECT_SOURCE_DIR}/tools -isystem ${CMAKE_BINARY_DIR}/wasm/include)
# The replay and the choice are built to be fast, the rest to be small: a page has to fetch it.
set(WASM_FASTEST replay replay_tracks)
set(WASM_FAST replay_case replay_tables chooser scenarios limit_rules criteria choice cold plantings)
foreach(source ${WASM_SOURCES})
  get_filename_component(stem ${source} NAME_WE)
  set(speed -Oz)
  if(stem IN_LIST WASM_FAST)
    set(speed -O2)
  elseif(stem IN_LIST WASM_FASTEST)
    set(speed -O3)
  endif()
  file(RELATIVE_PATH name ${PROJECT_SOURCE_DIR} ${source})
  string(REPLACE "/" "_" name ${name})
  set(object ${CMAKE_BINARY_DIR}/wasm/${name}.o)
  add_custom_command(OUTPUT ${object}
    COMMAND ${CMAKE_CXX_COMPILER_LAUNCHER} ${WASM_CLANG} ${WASM_FLAGS} ${speed} -MD -MF ${object}.d -c ${source} -o ${object}
    DEPENDS ${source} DEPFILE ${object}.d COMMENT "wasm ${name}" VERBATIM)
  list(APPEND WASM_OBJECTS ${object})
endforeach()
add_custom_command(OUTPUT ${WASM_FILE}
  COMMAND ${WASM_CLANG} --target=wasm32-wasi -O2 -mexec-model=reactor -Wl,--gc-sections -Wl,--strip-all
          ${WASM_OBJECTS} -o ${WASM_FILE}
  DEPENDS ${WASM_OBJECTS} COMMENT "Linking tenwinters.wasm" VERBATIM)
add_custom_target(tenwinters_wasm ALL DEPENDS ${WASM_FILE})
