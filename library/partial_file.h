#pragma once

#include "shared/interruption.h"

#include <filesystem>
#include <string_view>

namespace cospot::library {

/// Throws InputError if a file of that name exists already or its folder does not.
void check_name_is_free(const std::filesystem::path &target);

/// Removes what killed processes of this computer left in a folder of files that they did not
/// complete. What may belong to a process that lives, or to another computer, stays.
void clear_leftovers(const std::filesystem::path &folder);

/// A file that is made under a name of its own in the folder of its target and takes the target's
/// name when it is complete; what is not complete is removed, by the next one if this process is
/// killed. Its permissions follow the umask.
/// Throws DatabaseError where the folder cannot be written.
class PartialFile {
public:
    explicit PartialFile(const std::filesystem::path &target);
    ~PartialFile();
    PartialFile(const PartialFile &) = delete;
    PartialFile &operator=(const PartialFile &) = delete;

    [[nodiscard]] const std::filesystem::path &name() const noexcept { return name_; }

    /// Gives the file the name of the target; throws InputError if another file got it meanwhile.
    void publish() const;
    /// Gives the file the name of the target, whose file it takes the place of.
    void replace() const;

private:
    UnfinishedWork unfinished_;
    std::filesystem::path target_;
    std::filesystem::path name_;
};

enum class ExistingFile { kept, replaced };

/// Makes a file with that content, whole or not at all. Throws InputError where a file of that name
/// exists, unless it is to be replaced, and DatabaseError where it cannot be written.
void write_file(const std::filesystem::path &target, std::string_view content,
                ExistingFile existing = ExistingFile::kept);

} // namespace cospot::library
