// Text to circuit: a stage file, its types files, and the file it is based on.
//
// The way in for every command. Lexing is in lexer.hpp, one statement's meaning in
// statements_*.cpp.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <variant>

#include "circuit/circuit.hpp"
#include "complaints/result.hpp"

namespace idlepoint::language {

/// What became of asking for a file's text.
struct FileTrouble {
  std::string words;  ///< "is a directory", "cannot be opened: permission denied".
};
using FileText = std::variant<std::string, FileTrouble>;

/// Gives the text of a file by path. The reader has already refused paths that leave the stage
/// file's folder.
using FileSource = std::function<FileText(const std::string& path)>;

/// Reads from disk: regular files of at most 16 MiB; anything else is a FileTrouble.
[[nodiscard]] FileText read_from_disk(const std::string& path);

/// The complaint about a file whose text is not to be had.
[[nodiscard]] complaints::Complaint file_trouble(const std::string& path,
                                                 const FileTrouble& trouble);

struct ReadOptions {
  FileSource files = read_from_disk;
  std::string shelf_folder;  ///< Folder of the installed shelf of types; empty: there is none.
  /// Type names asked for on the command line (`--with`); looked up in the file, its types files,
  /// the shelf.
  std::vector<std::string> wanted_types;
  /// The same, but names that are nowhere are passed over: whoever wrote them is told elsewhere.
  std::vector<std::string> types_if_known;
};

/// The circuit that `text` draws, or every complaint of all the files in one list. Warnings of
/// reading are returned in `warnings` beside the circuit.
struct StageFile {
  circuit::Circuit circuit;
  complaints::Complaints warnings;
};

[[nodiscard]] complaints::Result<StageFile> read_stage(const std::string& text,
                                                       const std::string& file_name,
                                                       const ReadOptions& options = {});

/// As above, from a path.
[[nodiscard]] complaints::Result<StageFile> read_stage_file(const std::string& path,
                                                            const ReadOptions& options = {});

}  // namespace idlepoint::language
