#pragma once

#include <filesystem>
#include <functional>
#include <string>

namespace dewtrail {

/// Before any work: InputError for another ending than .gif and .mp4, or a folder that is not
/// there.
void check_animation(const std::filesystem::path& path);

/// Writes a film of PNG frames, .gif or .mp4 by the file's name, with ffmpeg, which is run without
/// a shell. The file appears once it is complete. `frame` is called for each frame in turn.
/// InputError as check_animation; OutsideError where ffmpeg is not installed or fails.
void save_animation(const std::filesystem::path& path, int frames, double frames_per_s,
                    const std::function<std::string(int)>& frame);

}  // namespace dewtrail
