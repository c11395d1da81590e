/// What the thread sanitizer shall not say: system libraries only, each by its name.

// GDAL takes two locks of its own in either order, on one thread.
extern "C" const char* __tsan_default_suppressions();
extern "C" const char* __tsan_default_suppressions() {
    return "deadlock:libgdal\n";
}
