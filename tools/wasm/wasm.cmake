# The browser engine: the same sources, compiled for wasm32 by a second compiler, and optimized as one whole.
#   wasm_link(NAME [HOW] OBJECTS...)   makes NAME.wasm and, packed small, NAME.wasm.gz
#   wasm_engine(NAME TELLS [HOW])      makes such an engine whose desk tells TELLS()
# HOW: CONVERGE: as small as it goes; UNPACKED: as the linker leaves it, for tests.
find_program(WASM_CLANG clang++-14 REQUIRED)
find_program(WASM_OPT wasm-opt REQUIRED)  # the compiler runs it by itself where it is installed
find_program(ZOPFLI zopfli REQUIRED)
file(GLOB WASM_SOURCES CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/engine/src/*.cc ${PROJECT_SOURCE_DIR}/tools/wire/*.cc)
list(FILTER WASM_SOURCES EXCLUDE REGEX "/(climate[^/]*|write)\\.cc$")
list(APPEND WASM_SOURCES ${PROJECT_SOURCE_DIR}/tools/draw/why_bar.cc ${PROJECT_SOURCE_DIR}/tools/wasm/memory.cc)
# RapidJSON lives in the system's include folder, which the wasm target must not see as a whole.
file(MAKE_DIRECTORY ${CMAKE_BINARY_DIR}/wasm/include)
file(CREATE_LINK ${RAPIDJSON_INCLUDE}/rapidjson ${CMAKE_BINARY_DIR}/wasm/include/rapidjson SYMBOLIC)
set(WASM_FLAGS --target=wasm32-wasi -std=c++20 -flto -fno-exceptions -fno-rtti -ffp-contract=off -DNDEBUG
  -Wall -Wextra -Werror -fvisibility=hidden -ffunction-sections -fdata-sections
  -I${PROJECT_SOURCE_DIR}/engine/include -I${PROJECT_SOURCE_DIR}/tools -isystem ${CMAKE_BINARY_DIR}/wasm/include)
# The replay is built to be fast, the rest to be small: a page has to fetch it.
set(WASM_FAST replay replay_tracks)

function(wasm_object source object)
  get_filename_component(stem ${source} NAME_WE)
  set(speed -Oz)
  if(stem IN_LIST WASM_FAST)
    set(speed -O2)
  endif()
  add_custom_command(OUTPUT ${object}
    COMMAND ${CMAKE_CXX_COMPILER_LAUNCHER} ${WASM_CLANG} ${WASM_FLAGS} ${ARGN} ${speed} -MD -MF ${object}.d -c ${source} -o ${object}
    DEPENDS ${source} DEPFILE ${object}.d COMMENT "wasm ${stem}" VERBATIM)
endfunction()

set(WASM_OBJECTS)
foreach(source ${WASM_SOURCES})
  file(RELATIVE_PATH name ${PROJECT_SOURCE_DIR} ${source})
  string(REPLACE "/" "_" name ${name})
  wasm_object(${source} ${CMAKE_BINARY_DIR}/wasm/${name}.o)
  list(APPEND WASM_OBJECTS ${CMAKE_BINARY_DIR}/wasm/${name}.o)
endforeach()

function(wasm_link name)
  cmake_parse_arguments(PARSE_ARGV 1 one "CONVERGE;UNPACKED" "" "")
  set(objects ${one_UNPARSED_ARGUMENTS})
  set(file ${CMAKE_BINARY_DIR}/${name}.wasm)
  set(made ${file})
  set(pack)
  if(NOT one_UNPACKED)
    set(made ${file} ${file}.gz)
    # Once more, its branches laid out anew: the compiler's own pass leaves one part in a hundred.
    set(pack COMMAND ${WASM_OPT} -Oz $<$<BOOL:${one_CONVERGE}>:--converge> --flatten --rereloop -Oz -Oz ${file} -o ${file}
             COMMAND ${ZOPFLI} --i50 ${file})
  endif()
  add_custom_command(OUTPUT ${made}
    COMMAND ${WASM_CLANG} --target=wasm32-wasi -Oz -flto -mexec-model=reactor -Wl,--gc-sections -Wl,--strip-all ${objects} -o ${file}
    ${pack} COMMAND_EXPAND_LISTS DEPENDS ${objects} COMMENT "Linking ${name}.wasm" VERBATIM)
  add_custom_target(wasm_${name} ALL DEPENDS ${made})
endfunction()

function(wasm_engine name tells)
  set(binding ${CMAKE_BINARY_DIR}/wasm/${name}.o)
  wasm_object(${PROJECT_SOURCE_DIR}/tools/wasm/binding.cc ${binding} -DTENWINTERS_TELLS=${tells})
  wasm_link(${name} ${ARGN} ${WASM_OBJECTS} ${binding})
endfunction()

wasm_engine(picker picker_tells CONVERGE)
if(TENWINTERS_TESTS)
  wasm_engine(all_tells all_tells UNPACKED)
endif()
