// Files from disk, for a tool that may be handed anything: a folder, a device, a film.
#include <cctype>
#include <cerrno>
#include <filesystem>
#include <fstream>
#include <system_error>
#include <utility>

#include "language/read_stage.hpp"

namespace idlepoint::language {
namespace {

constexpr std::uintmax_t largest_file = std::uintmax_t{16} * 1024 * 1024;

// "permission denied", not as a sentence of its own.
std::string in_words(const std::error_code& trouble) {
  std::string words = trouble.message();
  if (!words.empty() && words.front() >= 'A' && words.front() <= 'Z') {
    words.front() = static_cast<char>(words.front() - 'A' + 'a');
  }
  return words;
}

FileTrouble cannot_be_opened(const std::error_code& trouble) {
  return FileTrouble{trouble ? "cannot be opened: " + in_words(trouble) : "cannot be opened"};
}

}  // namespace

FileText read_from_disk(const std::string& path) {
  std::error_code trouble;
  const auto status = std::filesystem::status(path, trouble);
  if (status.type() == std::filesystem::file_type::not_found) {
    return FileTrouble{"cannot be opened: there is no such file"};
  }
  if (trouble) return cannot_be_opened(trouble);
  if (std::filesystem::is_directory(status)) return FileTrouble{"is a directory"};
  if (!std::filesystem::is_regular_file(status)) return FileTrouble{"is no ordinary file"};
  const std::uintmax_t size = std::filesystem::file_size(path, trouble);
  if (trouble) return cannot_be_opened(trouble);
  if (size > largest_file) return FileTrouble{"is larger than 16 MiB"};
  errno = 0;
  std::ifstream file(path, std::ios::binary);
  if (!file) return cannot_be_opened(std::error_code(errno, std::generic_category()));
  std::string text(static_cast<std::size_t>(size), '\0');
  file.read(text.data(), static_cast<std::streamsize>(text.size()));
  text.resize(static_cast<std::size_t>(file.gcount()));
  if (file.bad()) return FileTrouble{"cannot be read to its end"};
  return text;
}

}  // namespace idlepoint::language
