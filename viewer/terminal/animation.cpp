#include "viewer/terminal/animation.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstring>
#include <utility>
#include <vector>

#include "greens/input_error.hpp"
#include "viewer/files/whole_file.hpp"

namespace dewtrail {
namespace {

namespace fs = std::filesystem;

/// Closes its file descriptor in its destructor.
struct Descriptor {
    int number = -1;
    ~Descriptor() { shut(); }
    void shut() {
        if (number >= 0) close(std::exchange(number, -1));
    }
};

struct Pipe {
    Pipe() {
        int ends[2];
        if (pipe2(ends, O_CLOEXEC) != 0)
            throw OutsideError(fmt::format("no pipe: {}", std::strerror(errno)));
        out.number = ends[0];
        in.number = ends[1];
    }
    Descriptor out, in;
};

/// A broken pipe is an error to report, not a signal that kills us.
struct QuietPipes {
    QuietPipes() : before(std::signal(SIGPIPE, SIG_IGN)) {}
    ~QuietPipes() { std::signal(SIGPIPE, before); }
    void (*before)(int);
};

/// A program that reads frames; its error messages are kept.
class Encoder {
  public:
    explicit Encoder(std::vector<std::string> arguments) {
        std::vector<char*> pointers;
        for (std::string& argument : arguments) pointers.push_back(argument.data());
        pointers.push_back(nullptr);
        posix_spawn_file_actions_t actions;
        posix_spawn_file_actions_init(&actions);
        posix_spawn_file_actions_adddup2(&actions, frames_.out.number, STDIN_FILENO);
        posix_spawn_file_actions_adddup2(&actions, complaints_.in.number, STDERR_FILENO);
        const int error =
            posix_spawnp(&process_, pointers[0], &actions, nullptr, pointers.data(), environ);
        posix_spawn_file_actions_destroy(&actions);
        if (error == ENOENT)
            throw OutsideError(
                "ffmpeg, which makes animations, is not installed: install the "
                "package ffmpeg, or write a picture with --png");
        if (error) throw OutsideError(fmt::format("ffmpeg: {}", std::strerror(error)));
        frames_.out.shut();
        complaints_.in.shut();
    }
    ~Encoder() {
        frames_.in.shut();
        if (process_ > 0) waitpid(process_, nullptr, 0);
    }

    /// False once the program has stopped reading.
    bool write(const std::string& bytes) {
        for (std::size_t at = 0; at < bytes.size();) {
            const ssize_t n = ::write(frames_.in.number, bytes.data() + at, bytes.size() - at);
            if (n < 0 && errno == EINTR) continue;
            if (n <= 0) return false;
            at += static_cast<std::size_t>(n);
        }
        return true;
    }

    /// Waits for it to end; its error messages, or nothing if all went well.
    std::string finish() {
        frames_.in.shut();
        std::string said;
        char some[512];
        for (ssize_t n; (n = read(complaints_.out.number, some, sizeof some)) > 0;)
            said.append(some, static_cast<std::size_t>(n));
        int status = 0;
        waitpid(std::exchange(process_, -1), &status, 0);
        if (WIFEXITED(status) && WEXITSTATUS(status) == 0) return "";
        while (!said.empty() && said.back() == '\n') said.pop_back();
        return said.empty() ? "it failed" : said.substr(said.rfind('\n') + 1);
    }

  private:
    Pipe frames_, complaints_;
    pid_t process_ = -1;
};

bool is_gif(const fs::path& path) {
    const std::string ending = path.extension().string();
    return ending == ".gif" || ending == ".GIF";
}

/// ffmpeg's own words for the two kinds of file.
std::vector<std::string> arguments_for(bool gif, const Film& film, const fs::path& file) {
    std::vector<std::string> arguments{"ffmpeg",
                                       "-v",
                                       "error",
                                       "-y",
                                       "-f",
                                       "rawvideo",
                                       "-pixel_format",
                                       "bgr0",
                                       "-video_size",
                                       fmt::format("{}x{}", film.width, film.height),
                                       "-framerate",
                                       fmt::format("{}", film.frames_per_s),
                                       "-i",
                                       "-"};
    const auto add = [&](std::initializer_list<const char*> more) {
        arguments.insert(arguments.end(), more.begin(), more.end());
    };
    if (gif)
        add({"-vf", "scale=800:-1:flags=lanczos,split[a][b];[a]palettegen[p];[b][p]paletteuse",
             "-loop", "0", "-f", "gif"});
    else
        add({"-pix_fmt", "yuv420p", "-movflags", "+faststart", "-f", "mp4"});
    // A name that begins with a dash would be taken for an option.
    arguments.push_back("file:" + file.string());
    return arguments;
}

}  // namespace

void check_animation(const fs::path& path) {
    check_ending(path, {".gif", ".mp4"}, "an animation");
    check_may_be_file(path);
}

void save_animation(const fs::path& path, const Film& film) {
    check_animation(path);
    const QuietPipes quiet;
    WholeFile file(path);
    Encoder encoder(arguments_for(is_gif(path), film, file.path()));
    for (int i = 0; i < film.frames; ++i)
        if (!encoder.write(film.frame(i))) break;
    if (const std::string complaint = encoder.finish(); !complaint.empty())
        throw OutsideError(
            fmt::format("{} was not made: ffmpeg says: {}", path.string(), complaint));
    file.take_place();
}

}  // namespace dewtrail
