/// What sanitizers shall not say: system libraries only, each by its name.

// Fontconfig keeps what it has read until the end.
extern "C" const char* __lsan_default_suppressions();
extern "C" const char* __lsan_default_suppressions() {
    return "leak:libfontconfig\n";
}

// GDAL takes two locks of its own in either order, on one thread.
extern "C" const char* __tsan_default_suppressions();
extern "C" const char* __tsan_default_suppressions() {
    return "deadlock:libgdal\n";
}
