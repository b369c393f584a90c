// Oracle: the bytes on the disk afterwards; errno of POSIX write(2) and rename(2).
#include <fcntl.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <cerrno>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "../../cli/output_file.hpp"

namespace {

namespace fs = std::filesystem;

enum class AtFlush { nothing, is_killed, finds_the_disk_full };
AtFlush at_flush = AtFlush::nothing;

}  // namespace

// Takes the place of the system's own: all of the text is written, and it has no name yet.
extern "C" int fsync(int) {
  if (at_flush == AtFlush::is_killed) raise(SIGKILL);
  if (at_flush == AtFlush::nothing) return 0;
  errno = ENOSPC;
  return -1;
}

namespace idlepoint::tests {
namespace {

using cli::OutputFile;

const std::string page = "<!doctype html>\n<p>The page.\n";
const std::string older = "what stood there before\n";

// A folder for one test case; away with all that is in it.
struct Folder {
  fs::path path;
  Folder() {
    std::string name = (fs::temp_directory_path() / "idlepoint-output-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    path = name;
  }
  ~Folder() { fs::remove_all(path); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  [[nodiscard]] std::string at(const std::string& name) const { return (path / name).string(); }
  [[nodiscard]] std::vector<std::string> names() const {
    std::vector<std::string> found;
    for (const auto& entry : fs::directory_iterator(path)) {
      found.push_back(entry.path().filename().string());
    }
    return found;
  }
};

void put(const std::string& path, const std::string& text) {
  std::ofstream(path, std::ios::binary) << text;
}

std::string text_at(const std::string& path) {
  std::ostringstream text;
  text << std::ifstream(path, std::ios::binary).rdbuf();
  return text.str();
}

// Runs `act` in a process of its own and returns how that ended, as waitpid(2) tells it. 99: it was
// refused.
template <class Act>
int in_a_child(Act&& act) {
  const pid_t child = fork();
  if (child == 0) _exit(act() ? 99 : 0);
  int ended = 0;
  REQUIRE(waitpid(child, &ended, 0) == child);
  return ended;
}

using Names = std::vector<std::string>;

}  // namespace

TEST_CASE("A file is written whole and nothing stands beside it", "[acceptance][identity]") {
  const Folder folder;
  CHECK_FALSE(cli::write_whole({folder.at("page.html"), false, {}}, page));
  CHECK(text_at(folder.at("page.html")) == page);
  CHECK(folder.names() == Names{"page.html"});
}

TEST_CASE("A file that is there is replaced only where that is asked for",
          "[acceptance][identity]") {
  const Folder folder;
  put(folder.at("page.html"), older);
  const auto refused = cli::write_whole({folder.at("page.html"), false, {}}, page);
  REQUIRE(refused);
  CHECK(refused->instead.find("--force") != std::string::npos);
  CHECK(text_at(folder.at("page.html")) == older);
  fs::permissions(folder.at("page.html"), fs::perms::owner_read | fs::perms::owner_write);
  CHECK_FALSE(cli::write_whole({folder.at("page.html"), true, {}}, page));
  CHECK(text_at(folder.at("page.html")) == page);
  CHECK(fs::status(folder.at("page.html")).permissions() ==
        (fs::perms::owner_read | fs::perms::owner_write));
  CHECK(folder.names() == Names{"page.html"});
}

TEST_CASE("The file an answer is read from is never written over, by whatever name",
          "[acceptance][identity]") {
  const Folder folder;
  put(folder.at("left.stage"), older);
  fs::create_symlink("left.stage", folder.at("link"));
  fs::create_hard_link(folder.at("left.stage"), folder.at("twin"));
  for (const char* name : {"left.stage", "./left.stage", "link", "twin"}) {
    CAPTURE(name);
    const auto refused =
        cli::write_whole({folder.at(name), true, {"gone", folder.at("left.stage")}}, page);
    REQUIRE(refused);
    CHECK(refused->instead.find("never written over") != std::string::npos);
  }
  CHECK(text_at(folder.at("left.stage")) == older);
}

TEST_CASE("Through a link it is the file behind that is replaced", "[acceptance][identity]") {
  const Folder folder;
  put(folder.at("page.html"), older);
  fs::create_symlink("page.html", folder.at("link"));
  CHECK_FALSE(cli::write_whole({folder.at("link"), true, {}}, page));
  CHECK(fs::is_symlink(folder.at("link")));
  CHECK(text_at(folder.at("page.html")) == page);
}

TEST_CASE("A folder, a device, a pipe and a place that is not there are refused",
          "[acceptance][identity]") {
  const Folder folder;
  REQUIRE(mkfifo(folder.at("pipe").c_str(), 0600) == 0);
  for (const std::string& path : {folder.path.string(),
                                  folder.path.string() + "/",
                                  std::string("/dev/full"),
                                  folder.at("pipe"),
                                  folder.at("no-folder/page.html"),
                                  folder.at("no-folder/"),
                                  std::string("-"),
                                  folder.at(std::string(300, 'x'))}) {
    CAPTURE(path);
    const auto refused = cli::write_whole({path, true, {}}, page);
    REQUIRE(refused);
    CHECK_FALSE(refused->headline.empty());
    CHECK_FALSE(refused->instead.empty());
  }
  CHECK(folder.names() == Names{"pipe"});
}

TEST_CASE("A full disk leaves the older file, or none", "[acceptance][identity]") {
  const Folder folder;
  put(folder.at("older.html"), older);
  at_flush = AtFlush::finds_the_disk_full;
  const auto fresh = cli::write_whole({folder.at("fresh.html"), false, {}}, page);
  const auto replaced = cli::write_whole({folder.at("older.html"), true, {}}, page);
  at_flush = AtFlush::nothing;
  REQUIRE(fresh);
  REQUIRE(replaced);
  CHECK(fresh->headline.find("no room left") != std::string::npos);
  CHECK(text_at(folder.at("older.html")) == older);
  CHECK(folder.names() == Names{"older.html"});
}

TEST_CASE("A file larger than the shell allows is refused, not cut", "[acceptance][identity]") {
  const Folder folder;
  put(folder.at("older.html"), older);
  const int ended = in_a_child([&] {
    const rlimit limit{64, 64};
    setrlimit(RLIMIT_FSIZE, &limit);
    const std::string large(5000, 'x');
    const bool fresh = cli::write_whole({folder.at("fresh.html"), false, {}}, large).has_value();
    return cli::write_whole({folder.at("older.html"), true, {}}, large).has_value() && fresh;
  });
  REQUIRE(WIFEXITED(ended));
  CHECK(WEXITSTATUS(ended) == 99);
  CHECK(text_at(folder.at("older.html")) == older);
  CHECK(folder.names() == Names{"older.html"});
}

TEST_CASE("A kill in the middle leaves the older file, or none", "[acceptance][identity]") {
  const Folder folder;
  put(folder.at("older.html"), older);
  for (const char* name : {"older.html", "fresh.html"}) {
    CAPTURE(name);
    const int ended = in_a_child([&] {
      at_flush = AtFlush::is_killed;
      return cli::write_whole({folder.at(name), true, {}}, page).has_value();
    });
    REQUIRE(WIFSIGNALED(ended));
    CHECK(WTERMSIG(ended) == SIGKILL);
  }
  CHECK(text_at(folder.at("older.html")) == older);
  CHECK_FALSE(fs::exists(folder.at("fresh.html")));
}

}  // namespace idlepoint::tests
