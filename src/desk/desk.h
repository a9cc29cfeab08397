#pragma once

#include "desk/http_server.h"
#include "desk/request_guard.h"
#include "desk/running_verbs.h"
#include "desk/sheet_store.h"
#include "desk/url.h"

#include <filesystem>
#include <functional>
#include <string>
#include <utility>
#include <vector>

namespace cospot::desk {

/// Where a desk finds what it works with.
struct DeskPlaces {
    std::filesystem::path library; ///< need not exist yet
    std::filesystem::path sheets;  ///< folder, made where it is missing
    std::filesystem::path pages;   ///< folder of the pages' files; empty: those built in
};

/// Whether a request is about a file of a sheet.
[[nodiscard]] bool is_of_file(const Request &request);

/// What a request says of itself.
[[nodiscard]] RequestHead head_of(const Request &request);

/// What the pages of one library can ask for. Every result comes from the program's own verbs.
///
///   GET    /, /desk.css, /NAME.js            the page
///   GET    /api/sheets?words=               the sheets that hold these words, the newest first
///   POST   /api/sheets                      a new sheet
///   GET    /api/sheets/ID                   a sheet
///   PUT    /api/sheets/ID?revision=N        what was entered; 409 where another page was quicker
///   DELETE /api/sheets/ID                   puts the sheet away
///   GET    /api/sheets/ID/files/NAME        a file of the sheet
///   PUT    /api/sheets/ID/files/NAME        adds or replaces it
///   POST   /api/sheets/ID/run/SLOT          calls a verb in the sheet's folder (verb_call.h)
///   GET    /api/sheets/ID/run/SLOT          how far it is
///   DELETE /api/sheets/ID/run/SLOT          stops it
///   POST   /api/library/run/SLOT            (and GET, DELETE) a verb that needs no sheet
///   GET    /api/library                     which library this is
///   POST   /api/end                         ends the desk
class Desk {
public:
    Desk(const DeskPlaces &places, RequestGuard guard, std::function<void()> end);

    [[nodiscard]] HttpHandler handler();
    /// Of a request that may be answered.
    [[nodiscard]] boost::asio::awaitable<Response> answer(Request request);
    [[nodiscard]] const SheetStore &sheets() const noexcept { return sheets_; }
    [[nodiscard]] const std::filesystem::path &library() const noexcept { return library_; }
    /// What the pages say of a class that is let in: {"address", "code", "encrypted"}.
    void set_class(Json about) { class_ = std::move(about); }
    /// Stops what runs.
    void close() { verbs_.stop_all(); }

private:
    [[nodiscard]] std::optional<Response> refusal(const Request &head) const;
    /// The call of a verb that a request asks for; nothing where it asks for something else.
    [[nodiscard]] std::optional<WantedRun> wanted_run(const Request &request,
                                                      const Target &target) const;
    /// Texts that come with a call, as files of its sheet.
    void write_files(const std::string &sheet, const Json &files) const;
    [[nodiscard]] Response answer_without_waiting(const Request &request,
                                                  std::optional<WantedRun> &wanted) noexcept;
    [[nodiscard]] Response answer_at_once(const Request &request, const Target &target);
    [[nodiscard]] Response answer_about_sheets(const Request &request, const Target &target);
    [[nodiscard]] Response answer_about_file(const Request &request, const std::string &sheet,
                                             const std::string &name) const;
    [[nodiscard]] Response answer_about_run(const Request &request, const std::string &slot);

    [[nodiscard]] Response page_part_at(const std::vector<std::string> &path) const;

    std::filesystem::path library_;
    std::filesystem::path pages_;
    SheetStore sheets_;
    std::filesystem::path scratch_; ///< where verbs run that need no sheet
    RequestGuard guard_;
    RunningVerbs verbs_;
    Json class_; ///< null: nobody else is let in
    std::function<void()> end_;
};

} // namespace cospot::desk
