#include "desk/desk.h"

#include "desk/page_files.h"
#include "desk/responses.h"
#include "desk/url.h"
#include "desk/verb_call.h"
#include "library/partial_file.h"
#include "options/version.h"
#include "shared/error.h"

#include <fmt/format.h>

#include <fstream>
#include <iterator>
#include <sstream>
#include <utility>

namespace cospot::desk {

namespace fs = std::filesystem;
using boost::asio::awaitable;

namespace {

constexpr std::size_t kEnteredLimit = 8UL << 20U;
constexpr std::size_t kFileLimit = 64UL << 20U;
constexpr const char *kPageName = "page.html";

std::string_view media_type(const std::string &name) {
    const std::string ending = fs::path(name).extension().string();
    if (ending == ".jpg" || ending == ".jpeg" || ending == ".JPG" || ending == ".JPEG") {
        return "image/jpeg";
    }
    return ending == ".png" || ending == ".PNG" ? "image/png" : "text/plain; charset=utf-8";
}

std::optional<std::string> file_content(const fs::path &file) {
    std::ifstream in(file, std::ios::binary);
    if (!in) {
        return std::nullopt;
    }
    return std::string(std::istreambuf_iterator<char>(in), {});
}

/// A finished page: it brings its own rules along, and runs apart from the desk's own pages.
Response kept_page(const fs::path &file) {
    auto page = file_content(file);
    if (!page) {
        return not_found();
    }
    Response answer = response(http::status::ok, "text/html; charset=utf-8", std::move(*page));
    answer.set("Content-Security-Policy", "sandbox allow-scripts allow-modals allow-popups");
    return answer;
}

std::int64_t revision_of(const Target &target) {
    const std::string text = target.question("revision");
    std::int64_t revision = 0;
    std::istringstream(text) >> revision;
    return revision;
}

/// What goes before the verb.
std::vector<std::string> with_form(const VerbCall &call, const fs::path &library) {
    std::vector<std::string> arguments{"--library=" + library.string()};
    switch (call.form) {
    case AnswerForm::json:
        arguments.emplace_back("--json");
        break;
    case AnswerForm::html:
        arguments.emplace_back("--html");
        break;
    case AnswerForm::page:
        break;
    }
    arguments.insert(arguments.end(), call.arguments.begin(), call.arguments.end());
    if (call.form == AnswerForm::page) {
        const std::vector<std::string> report{fmt::format("--report={}", kPageName), "--replace"};
        arguments.insert(arguments.begin() + 2, report.begin(), report.end()); // behind the verb
    }
    return arguments;
}

Response response_about(std::optional<VerbEnd> &end) {
    if (!end) {
        return failure(http::status::service_unavailable,
                       "Too much is being worked on; try again when some of it is done.");
    }
    return json_response({{"code", end->code},
                          {"stopped", end->is_stopped},
                          {"output", std::move(end->results)},
                          {"messages", std::move(end->messages)}});
}

std::optional<Response> refusal_of(Verdict verdict, const RequestGuard &guard) {
    switch (verdict) {
    case Verdict::answered:
        return std::nullopt;
    case Verdict::enters: {
        Response answer = response(http::status::see_other, "text/plain; charset=utf-8", "");
        answer.set(http::field::location, "/");
        answer.set(http::field::set_cookie, guard.cookie());
        return answer;
    }
    case Verdict::no_key:
        return response(http::status::unauthorized, "text/plain; charset=utf-8",
                        "Open the address that cospot printed where it was started.\n");
    case Verdict::wrong_host:
        return response(http::status::misdirected_request, "text/plain; charset=utf-8",
                        "This desk is reached as 127.0.0.1 or localhost only.\n");
    case Verdict::foreign:
    case Verdict::not_by_page:
        return response(http::status::forbidden, "text/plain; charset=utf-8",
                        "Only the pages of this desk may ask this.\n");
    }
    return std::nullopt;
}

} // namespace

Desk::Desk(const DeskPlaces &places, RequestGuard guard, std::function<void()> end)
    : library_(fs::absolute(places.library)), pages_(places.pages),
      sheets_(fs::absolute(places.sheets)), scratch_(fs::absolute(places.sheets) / "library"),
      guard_(std::move(guard)), end_(std::move(end)) {
    fs::create_directories(scratch_);
}

HttpHandler Desk::handler() {
    return {.refuse = [this](const Request &head) { return refusal(head); },
            .body_limit =
                [](const Request &head) {
                    return head.method() == http::verb::put && is_of_file(head) ? kFileLimit
                                                                                : kEnteredLimit;
                },
            .answer = [this](Request request) { return answer(std::move(request)); }};
}

bool is_of_file(const Request &request) {
    return text_of(request.target()).find("/files/") != std::string_view::npos;
}

RequestHead head_of(const Request &request) {
    return {.method = text_of(request.method_string()),
            .target = text_of(request.target()),
            .host = text_of(request[http::field::host]),
            .origin = text_of(request[http::field::origin]),
            .fetch_site = text_of(request["Sec-Fetch-Site"]),
            .cookie = text_of(request[http::field::cookie]),
            .own_header = text_of(request["X-Cospot-Desk"])};
}

std::optional<Response> Desk::refusal(const Request &head) const {
    return refusal_of(guard_.judge(head_of(head)), guard_);
}

std::optional<WantedRun> Desk::wanted_run(const Request &request, const Target &target) const {
    const auto &path = target.path;
    if (request.method() != http::verb::post || path.size() < 4 || path[0] != "api" ||
        path[path.size() - 2] != "run") {
        return std::nullopt;
    }
    const std::string &slot = path.back();
    if (path[1] == "library" && path.size() == 4) {
        return WantedRun{"library/" + slot, scratch_,
                         with_form(verb_call(parsed(request.body())), library_)};
    }
    if (path[1] != "sheets" || path.size() != 5) {
        return std::nullopt;
    }
    const Json asked = parsed(request.body());
    WantedRun wanted{path[2] + '/' + slot, sheets_.folder_of(path[2]),
                     with_form(verb_call(asked), library_)};
    write_files(path[2], asked.value("files", Json::object()));
    return wanted;
}

void Desk::write_files(const std::string &sheet, const Json &files) const {
    for (const auto &[name, content] : files.items()) {
        const fs::path file = sheets_.file_of(sheet, name);
        if (!content.is_string()) {
            throw InputError({"request", 0, ""}, "a file that is no text", "text");
        }
        library::write_file(file, content.get_ref<const std::string &>(),
                            library::ExistingFile::replaced);
    }
}

Response Desk::answer_without_waiting(const Request &request,
                                      std::optional<WantedRun> &wanted) noexcept {
    try {
        const Target target = target_of(text_of(request.target()));
        wanted = wanted_run(request, target);
        return wanted ? Response() : answer_at_once(request, target);
    } catch (const InputError &error) {
        return failure(http::status::bad_request, error.what());
    } catch (const std::exception &error) {
        return failure(http::status::internal_server_error, error.what());
    }
}

awaitable<Response> Desk::answer(Request request) {
    std::optional<WantedRun> wanted;
    Response answer = answer_without_waiting(request, wanted);
    if (wanted) {
        std::optional<VerbEnd> end = co_await verbs_.run(*wanted);
        answer = response_about(end);
    }
    co_return answer;
}

Response Desk::answer_at_once(const Request &request, const Target &target) {
    const auto &path = target.path;
    if (path.empty() || path[0] != "api") {
        return page_part_at(path);
    }
    const std::string what = path.size() > 1 ? path[1] : "";
    if (what == "sheets") {
        return answer_about_sheets(request, target);
    }
    if (what == "library" && path.size() == 4 && path[2] == "run") {
        return answer_about_run(request, "library/" + path[3]);
    }
    if (what == "library" && path.size() == 2) {
        return json_response({{"library", library_.string()},
                              {"exists", fs::exists(library_)},
                              {"role", "owner"},
                              {"class", class_},
                              {"version", kVersion}});
    }
    if (what == "end" && request.method() == http::verb::post) {
        end_();
        return json_response({{"ended", true}});
    }
    return not_found();
}

Response Desk::page_part_at(const std::vector<std::string> &path) const {
    const std::string name = path.empty() ? "desk.html" : path[0];
    const auto file = path.size() < 2 ? page_file(name) : std::nullopt;
    if (!file) {
        return not_found();
    }
    if (!pages_.empty()) {
        if (auto own = file_content(pages_ / name)) {
            return response(http::status::ok, file->type, std::move(*own));
        }
    }
    return response(http::status::ok, file->type, std::string(file->content));
}

Response Desk::answer_about_sheets(const Request &request, const Target &target) {
    const std::vector<std::string> path(target.path.begin() + 2, target.path.end());
    const bool is_get = request.method() == http::verb::get;
    if (path.empty()) {
        return is_get
                   ? json_response(sheets_.list(target.question("words")))
                   : json_response(sheets_.create(parsed(request.body())), http::status::created);
    }
    const std::string &id = path[0];
    if (path.size() == 3 && path[1] == "files") {
        return answer_about_file(request, id, path[2]);
    }
    if (path.size() == 3 && path[1] == "run") {
        return answer_about_run(request, id + '/' + path[2]);
    }
    if (path.size() == 2 && path[1] == "page" && is_get) {
        return kept_page(sheets_.folder_of(id) / kPageName);
    }
    if (path.size() != 1) {
        return not_found();
    }
    if (is_get) {
        const auto sheet = sheets_.read(id);
        return sheet ? json_response(*sheet) : not_found();
    }
    if (request.method() == http::verb::delete_) {
        sheets_.remove(id);
        return json_response({{"removed", id}});
    }
    const auto written = sheets_.write(id, parsed(request.body()), revision_of(target));
    if (const auto *changed = std::get_if<ChangedMeanwhile>(&written)) {
        return json_response({{"error", "Another page changed this sheet meanwhile."},
                              {"revision", changed->revision}},
                             http::status::conflict);
    }
    return json_response(std::get<Json>(written));
}

Response Desk::answer_about_file(const Request &request, const std::string &sheet,
                                 const std::string &name) const {
    const fs::path file = sheets_.file_of(sheet, name);
    if (request.method() == http::verb::put) {
        library::write_file(file, request.body(), library::ExistingFile::replaced);
        return json_response({{"file", name}, {"bytes", request.body().size()}});
    }
    auto content = file_content(file);
    return content ? response(http::status::ok, media_type(name), std::move(*content))
                   : not_found();
}

Response Desk::answer_about_run(const Request &request, const std::string &slot) {
    if (request.method() == http::verb::delete_) {
        verbs_.stop(slot);
        return json_response({{"stopped", true}});
    }
    const auto progress = verbs_.progress(slot);
    return json_response({{"runs", progress.has_value()}, {"progress", progress.value_or("")}});
}

} // namespace cospot::desk
