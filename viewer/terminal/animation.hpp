#pragma once

#include <filesystem>
#include <functional>
#include <string>

namespace dewtrail {

/// Before any work: InputError for another ending than .gif and .mp4, or a folder that is not
/// there.
void check_animation(const std::filesystem::path& path);

/// What a film is made of: its frames' pixels, each blue, green, red and a byte unused.
struct Film {
    int width = 0, height = 0, frames = 0;
    double frames_per_s = 25;
    std::function<std::string(int)> frame;  ///< called for each in turn
};

/// Writes a film, .gif or .mp4 by the file's name, with ffmpeg, which is run without a shell. The
/// file appears once it is complete. InputError as check_animation; OutsideError where ffmpeg is
/// not installed or fails.
void save_animation(const std::filesystem::path& path, const Film& film);

}  // namespace dewtrail
