#include "output_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <filesystem>
#include <set>
#include <system_error>
#include <utility>

namespace idlepoint::cli {
namespace {

namespace fs = std::filesystem;

// A write past the size limit of the shell would end the program; like this it is told as an error.
class NoEndByFileSize {
 public:
  NoEndByFileSize() : before_(std::signal(SIGXFSZ, SIG_IGN)) {}
  ~NoEndByFileSize() { std::signal(SIGXFSZ, before_); }
  NoEndByFileSize(const NoEndByFileSize&) = delete;
  NoEndByFileSize& operator=(const NoEndByFileSize&) = delete;

 private:
  void (*before_)(int);
};

// A file that is being written. One without a name, which a kill leaves no trace of; on a file
// system that has no such thing, one beside its place under a passing name.
class Unfinished {
 public:
  explicit Unfinished(const fs::path& place)
      : passing_(place.parent_path() / fmt::format(".{}.{}", place.filename().string(), getpid())),
        file_(open(place.parent_path().c_str(), O_TMPFILE | O_WRONLY | O_CLOEXEC, 0666)) {
    if (file_ >= 0) return;
    file_ = open(passing_.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_CLOEXEC, 0666);
    is_named_ = file_ >= 0;
  }
  ~Unfinished() {
    if (is_named_) unlink(passing_.c_str());
    if (file_ >= 0) close(file_);
  }
  Unfinished(const Unfinished&) = delete;
  Unfinished& operator=(const Unfinished&) = delete;

  [[nodiscard]] bool is_open() const { return file_ >= 0; }

  // All of the text, on the disk and not only on its way there.
  [[nodiscard]] bool write_all(std::string_view text) const {
    while (!text.empty()) {
      const ssize_t written = write(file_, text.data(), text.size());
      if (written < 0 && errno == EINTR) continue;
      if (written < 0) return false;
      text.remove_prefix(static_cast<std::size_t>(written));
    }
    return fsync(file_) == 0 || errno == EINVAL;
  }

  void take_permissions_of(const fs::path& old) const {
    struct stat what {};
    if (stat(old.c_str(), &what) == 0) (void)fchmod(file_, what.st_mode & 07777);
  }

  // Where no file stands: never over one that came in the meantime.
  [[nodiscard]] bool call_it_new(const fs::path& place) {
    if (!is_named_) return give_name(place);
    if (renameat2(AT_FDCWD, passing_.c_str(), AT_FDCWD, place.c_str(), RENAME_NOREPLACE) != 0 &&
        (errno != EINVAL || std::rename(passing_.c_str(), place.c_str()) != 0)) {
      return false;
    }
    is_named_ = false;
    return true;
  }

  [[nodiscard]] bool put_in_place_of(const fs::path& old) {
    if (!is_named_) is_named_ = give_name(passing_);
    if (!is_named_ || std::rename(passing_.c_str(), old.c_str()) != 0) return false;
    is_named_ = false;
    return true;
  }

 private:
  [[nodiscard]] bool give_name(const fs::path& name) const {
    const std::string self = fmt::format("/proc/self/fd/{}", file_);
    return linkat(AT_FDCWD, self.c_str(), AT_FDCWD, name.c_str(), AT_SYMLINK_FOLLOW) == 0;
  }

  fs::path passing_;
  int file_;
  bool is_named_ = false;
};

// The place itself, behind any links: it is the file that is replaced, not the link.
fs::path real_place(const std::string& path) {
  std::error_code trouble;
  const fs::path written = fs::absolute(path, trouble);
  fs::path place = fs::weakly_canonical(written, trouble);
  return trouble ? written : place;
}

Trouble there_is_one(const std::string& path) {
  return {fmt::format("`{}` is there already", path),
          "Write to another name, or add --force to replace it."};
}

Trouble cannot_be_written(const std::string& path, int why) {
  switch (why) {
    case ENOSPC:
    case EDQUOT:
      return {fmt::format("`{}` was not written: there is no room left on the disk", path),
              "Make room, or write to another disk. What stood there before is as it was."};
    case EFBIG:
      return {fmt::format("`{}` was not written: it is larger than a file may be here", path),
              "`ulimit -f` tells the limit. What stood there before is as it was."};
    case EACCES:
    case EPERM:
    case EROFS:
      return {fmt::format("`{}` cannot be written: you may not write in that folder", path),
              "Write to a folder of your own."};
    case EEXIST:
      return there_is_one(path);
    default:
      return {fmt::format("`{}` was not written. The system says: {}",
                          path,
                          std::generic_category().message(why)),
              "Write to another name or another folder. What stood there before is as it was."};
  }
}

std::optional<Trouble> is_input(const OutputFile& output) {
  for (const std::string& input : output.inputs) {
    std::error_code trouble;
    if (!fs::equivalent(output.path, input, trouble) || trouble) continue;
    return Trouble{fmt::format("`{}` is the file that the answer is read from", output.path),
                   "It is never written over, not with --force either. Write to another name."};
  }
  return std::nullopt;
}

}  // namespace

Option output_option() {
  return {"-o", "FILE", "the file to write to; --output is the same", false, "--output"};
}

Option force_option() { return {"--force", "", "replace the file where there is one"}; }

std::optional<OutputFile> output_asked_for(const Given& given, std::vector<std::string> inputs) {
  if (!given.has("-o")) return std::nullopt;
  return OutputFile{given.all("-o").back(), given.has("--force"), std::move(inputs)};
}

std::vector<std::string> files_of(const circuit::Circuit& circuit) {
  std::set<std::string> files = {circuit.file};
  for (const auto& part : circuit.parts) files.insert(part.place.file);
  for (const auto& type : circuit.types) files.insert(type.place.file);
  for (const auto& rail : circuit.rails) files.insert(rail.place.file);
  for (const auto& reading : circuit.readings) files.insert(reading.place.file);
  return {files.begin(), files.end()};
}

std::optional<Trouble> refuse(const OutputFile& output) {
  if (output.path == "-") {
    return Trouble{"-o - names no file", "Write the name of a file, such as `-o page.html`."};
  }
  std::error_code trouble;
  const fs::file_status status = fs::status(output.path, trouble);
  if (fs::is_directory(status)) {
    return Trouble{fmt::format("`{}` is a folder", output.path),
                   "Write the name of a file in it, such as `-o " +
                       (fs::path(output.path) / "page.html").string() + "`."};
  }
  if (auto input = is_input(output)) return input;
  if (fs::exists(status)) {
    if (!fs::is_regular_file(status)) {
      return Trouble{fmt::format("`{}` is no ordinary file", output.path),
                     "Write the name of a file on a disk."};
    }
    if (!output.may_replace) return there_is_one(output.path);
  }
  const fs::path folder = real_place(output.path).parent_path();
  if (!fs::is_directory(folder, trouble)) {
    return Trouble{fmt::format("there is no folder `{}`", folder.string()),
                   "Make it first, or write to another folder."};
  }
  if (access(folder.c_str(), W_OK | X_OK) != 0) return cannot_be_written(output.path, errno);
  return std::nullopt;
}

std::optional<Trouble> write_whole(const OutputFile& output, std::string_view text) {
  if (auto trouble = refuse(output)) return trouble;
  const NoEndByFileSize guard;
  const fs::path place = real_place(output.path);
  Unfinished file(place);
  if (!file.is_open()) return cannot_be_written(output.path, errno);
  if (!file.write_all(text)) return cannot_be_written(output.path, errno);
  std::error_code trouble;
  const bool replaces = fs::exists(place, trouble);
  if (replaces) file.take_permissions_of(place);
  const bool done =
      replaces && output.may_replace ? file.put_in_place_of(place) : file.call_it_new(place);
  if (!done) return cannot_be_written(output.path, errno);
  return std::nullopt;
}

}  // namespace idlepoint::cli
