#pragma once

#include <filesystem>
#include <functional>
#include <string>

namespace dewtrail {

/// Writes a film of PNG frames, .gif or .mp4 by the file's name, with ffmpeg, which is run without
/// a shell. The file appears once it is complete. `frame` is called for each frame in turn.
/// InputError for another ending; OutsideError where ffmpeg is not installed or fails.
void save_animation(const std::filesystem::path& path, int frames, double frames_per_s,
                    const std::function<std::string(int)>& frame);

}  // namespace dewtrail
