#pragma once

#include "desk/desk.h"
#include "desk/visitors.h"

#include <string>

namespace cospot::desk {

/// What others in the room can ask for: to read the library, and sheets of their own, which they
/// submit to whoever opened the desk. They change neither the library nor anybody else's sheet.
///
///   POST /api/enter    {"code", "name"}: lets somebody in
///   and of `Desk`: the pages, /api/library, and /api/sheets/... of their own sheets
class ClassDesk {
public:
    /// Both live at least as long as this.
    ClassDesk(Desk &desk, Visitors &visitors) : desk_(&desk), visitors_(&visitors) {}

    [[nodiscard]] HttpHandler handler();

private:
    [[nodiscard]] boost::asio::awaitable<Response> answer(Request request);
    /// The answer, or nothing where the desk gives it; the request is then as a visitor may send
    /// it.
    [[nodiscard]] std::optional<Response> answer_or_pass(Request &request);
    [[nodiscard]] Response enter(const Request &request);
    [[nodiscard]] std::optional<Response> about_sheets(const Visitor &visitor, Request &request,
                                                       const std::vector<std::string> &path);
    [[nodiscard]] Json sheets_of(const Visitor &visitor) const;
    [[nodiscard]] std::optional<Response> new_sheet(const Visitor &visitor, Request &request) const;
    [[nodiscard]] std::optional<Response> changed_sheet(const Visitor &visitor, const Json &sheet,
                                                        Request &request) const;
    [[nodiscard]] std::optional<Response> work(const Visitor &visitor, Request &request);

    Desk *desk_;
    Visitors *visitors_;
};

} // namespace cospot::desk
