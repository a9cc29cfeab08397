#include "desk/class_desk.h"

#include "desk/responses.h"
#include "desk/url.h"
#include "options/version.h"
#include "shared/error.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <utility>

namespace cospot::desk {

namespace {

constexpr std::size_t kCodeLimit = 4096;
constexpr std::size_t kVisitorFileLimit = 16UL << 20U;
constexpr std::size_t kVisitorEnteredLimit = 1UL << 20U;
constexpr std::size_t kMostSheetsOfOne = 20;

/// Verbs that change nothing.
constexpr std::array<std::string_view, 7> kReadingVerbs{"identify", "list",    "peaks", "photo",
                                                        "pool",     "predict", "show"};

Response forbidden() {
    return failure(http::status::forbidden, "Only the person who opened this desk may do that.");
}

Response too_much() {
    return failure(http::status::too_many_requests, "Too much at a time: wait a few seconds.");
}

std::optional<Response> refusal_of_class(Verdict verdict) {
    switch (verdict) {
    case Verdict::answered:
        return std::nullopt;
    case Verdict::wrong_host:
        return response(http::status::misdirected_request, "text/plain; charset=utf-8",
                        "This class is reached only under the address that was told.\n");
    case Verdict::enters:
    case Verdict::no_key:
    case Verdict::foreign:
    case Verdict::not_by_page:
        break;
    }
    return response(http::status::forbidden, "text/plain; charset=utf-8",
                    "Only the pages of this desk may ask this.\n");
}

/// The text of a field; empty where it holds none.
std::string text_in(const Json &json, const char *field) {
    return json.is_object() && json.contains(field) && json[field].is_string()
               ? json[field].get<std::string>()
               : std::string();
}

/// What a page of a visitor entered, as theirs: neither owner, person nor state is for them to say.
std::string as_theirs(const Visitor &visitor, const std::string &body) {
    Json entered = parsed(body);
    if (!entered.is_object()) {
        throw InputError({"request", 0, ""}, "no object", "a sheet");
    }
    entered["owner"] = visitor.id;
    entered["person"] = visitor.name;
    entered["state"] = entered.value("state", Json()) == "submitted" ? "submitted" : "open";
    entered.erase("kept");
    return json_line(entered);
}

} // namespace

HttpHandler ClassDesk::handler() {
    return {.refuse =
                [this](const Request &head) {
                    return refusal_of_class(visitors_->judge(head_of(head)));
                },
            .body_limit =
                [this](const Request &head) {
                    const bool is_known = visitors_->who(head_of(head).cookie) != nullptr;
                    return !is_known          ? kCodeLimit
                           : is_of_file(head) ? kVisitorFileLimit
                                              : kVisitorEnteredLimit;
                },
            .answer = [this](Request request) { return answer(std::move(request)); }};
}

boost::asio::awaitable<Response> ClassDesk::answer(Request request) {
    std::optional<Response> own;
    try {
        own = answer_or_pass(request);
    } catch (const InputError &error) {
        own = failure(http::status::bad_request, error.what());
    } catch (const std::exception &error) {
        own = failure(http::status::internal_server_error, error.what());
    }
    if (own) {
        co_return std::move(*own);
    }
    Response answer = co_await desk_->answer(std::move(request));
    co_return answer;
}

std::optional<Response> ClassDesk::answer_or_pass(Request &request) {
    const Target target = target_of(text_of(request.target()));
    const auto &path = target.path;
    const bool is_get = request.method() == http::verb::get;
    if (path.empty() || path[0] != "api") {
        return is_get ? std::nullopt : std::optional(not_found());
    }
    const std::string what = path.size() > 1 ? path[1] : "";
    if (what == "enter" && request.method() == http::verb::post) {
        return enter(request);
    }
    const Visitor *visitor = visitors_->who(head_of(request).cookie);
    if (visitor == nullptr) {
        return json_response({{"error", "Enter the code of the class first."}, {"enter", true}},
                             http::status::unauthorized);
    }
    if (what == "library" && path.size() == 2 && is_get) {
        return json_response({{"library", desk_->library().filename().string()},
                              {"exists", true},
                              {"role", "visitor"},
                              {"name", visitor->name},
                              {"version", kVersion}});
    }
    if (what == "library" && path.size() == 4 && path[2] == "run") {
        request.target("/api/library/run/" + visitor->id + '-' + path[3]);
        return request.method() == http::verb::post ? work(*visitor, request) : std::nullopt;
    }
    return what == "sheets" ? about_sheets(*visitor, request, {path.begin() + 2, path.end()})
                            : std::optional(forbidden());
}

Response ClassDesk::enter(const Request &request) {
    const Json said = parsed(request.body());
    const std::string name = text_in(said, "name");
    if (name.empty()) {
        return failure(http::status::bad_request, "Enter your name, too.");
    }
    std::string cookie;
    const auto now = std::chrono::steady_clock::now();
    switch (visitors_->enter(text_in(said, "code"), name, now, cookie)) {
    case Visitors::Entry::entered: {
        Response answer = json_response({{"entered", true}});
        answer.set(http::field::set_cookie, cookie);
        return answer;
    }
    case Visitors::Entry::wrong_code:
        return failure(http::status::forbidden, "That is not the code of this class.");
    case Visitors::Entry::too_often:
        break;
    }
    return too_much();
}

std::optional<Response> ClassDesk::about_sheets(const Visitor &visitor, Request &request,
                                                const std::vector<std::string> &path) {
    if (path.empty()) {
        if (request.method() == http::verb::post) {
            return new_sheet(visitor, request);
        }
        return json_response(sheets_of(visitor));
    }
    const auto sheet = desk_->sheets().read(path[0]);
    if (!sheet || sheet->value("owner", "") != visitor.id) {
        return not_found();
    }
    if (path.size() == 3 && path[1] == "run" && request.method() == http::verb::post) {
        return work(visitor, request);
    }
    const bool is_get = request.method() == http::verb::get;
    if (is_get || (path.size() == 3 && path[1] == "run")) {
        return std::nullopt;
    }
    return request.method() == http::verb::put ? changed_sheet(visitor, *sheet, request)
                                               : std::optional(forbidden());
}

Json ClassDesk::sheets_of(const Visitor &visitor) const {
    Json own = Json::array();
    for (Json &sheet : desk_->sheets().list("")) {
        if (sheet.value("owner", "") == visitor.id) {
            own.push_back(std::move(sheet));
        }
    }
    return own;
}

std::optional<Response> ClassDesk::new_sheet(const Visitor &visitor, Request &request) const {
    if (sheets_of(visitor).size() >= kMostSheetsOfOne) {
        return failure(http::status::too_many_requests,
                       "Nobody may have more than 20 sheets here.");
    }
    request.body() = as_theirs(visitor, request.body());
    return std::nullopt;
}

std::optional<Response> ClassDesk::changed_sheet(const Visitor &visitor, const Json &sheet,
                                                 Request &request) const {
    if (sheet.value("state", "") != "open") {
        return failure(http::status::forbidden, "This sheet was submitted: it is changed no more.");
    }
    if (!is_of_file(request)) {
        request.body() = as_theirs(visitor, request.body());
    }
    return std::nullopt;
}

std::optional<Response> ClassDesk::work(const Visitor &visitor, Request &request) {
    const Json asked = parsed(request.body());
    const std::string verb = text_in(asked, "verb");
    if (verb.empty()) {
        return failure(http::status::bad_request, "No verb.");
    }
    const bool is_reading =
        std::find(kReadingVerbs.begin(), kReadingVerbs.end(), verb) != kReadingVerbs.end();
    const Json options = asked.value("options", Json::object());
    const bool is_remembered = options.is_object() && options.contains("as"); // by the library
    if (!is_reading || is_remembered || asked.value("form", Json("json")) == "page") {
        return forbidden();
    }
    return visitors_->may_work(visitor, std::chrono::steady_clock::now())
               ? std::nullopt
               : std::optional(too_much());
}

} // namespace cospot::desk
