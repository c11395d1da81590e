set -e
cmake --preset dev -DCMAKE_EXPORT_COMPILE_COMMANDS=ON >/dev/null
O="viewer/CMakeFiles/dewtrail_viewer.dir"
objs=""
for f in viewer/text/*.cpp viewer/files/*.cpp viewer/putt/*.cpp viewer/practice/*.cpp viewer/practice/*/*.cpp; do objs="$objs $O/${f#viewer/}.o"; done
ninja -C build/dev -j2 dewtrail_physics dewtrail_greens $objs
