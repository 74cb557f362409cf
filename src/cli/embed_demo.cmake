# cmake -DOUT=header -DFILES="a;b" -P embed_demo.cmake
# Writes each file as an array of bytes, named demo_ and its base name.
set(text "/* Made at build from files of src/cli. */\n")
foreach(file IN LISTS FILES)
  get_filename_component(base "${file}" NAME)
  string(MAKE_C_IDENTIFIER "demo_${base}" name)
  file(READ "${file}" hex HEX)
  string(REGEX REPLACE "([0-9a-f][0-9a-f])" "0x\\1," bytes "${hex}")
  string(APPEND text "static const unsigned char ${name}[] = {${bytes}};\n")
endforeach()
file(WRITE "${OUT}" "${text}")
