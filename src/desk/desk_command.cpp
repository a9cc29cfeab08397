#include "desk/browser.h"
#include "desk/class_desk.h"
#include "desk/desk.h"
#include "desk/desk_options.h"
#include "options/command.h"

#include <boost/asio/ip/address_v4.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/lexical_cast.hpp>
#include <fmt/format.h>

#include <csignal>
#include <cstdlib>
#include <memory>
#include <ostream>

namespace cospot {

namespace {

namespace asio = boost::asio;
using asio::ip::tcp;

/// A desk that is open to others in the room.
struct Classroom {
    Classroom(asio::io_context &context, const desk::ClassOptions &options, desk::Desk &desk)
        : server(context, options.place, options.tls),
          visitors(desk::random_code(), boost::lexical_cast<std::string>(options.place),
                   options.tls.has_value()),
          pages(desk, visitors) {
        server.serve(pages.handler());
        desk.set_class({{"address", visitors.address()},
                        {"code", visitors.code()},
                        {"encrypted", options.tls.has_value()}});
    }

    desk::HttpServer server;
    desk::Visitors visitors;
    desk::ClassDesk pages;
};

void announce_class(const Classroom &classroom, bool is_encrypted, std::ostream &err) {
    err << fmt::format("Others in the room open {} and enter the code {}.\n",
                       classroom.visitors.address(), classroom.visitors.code());
    if (!is_encrypted) {
        err << "What they send is not encrypted: whoever shares the network can read it\n"
               "(--certificate and --key encrypt it).\n";
    }
}

} // namespace

int run_desk(const Invocation &invocation) {
    CommandOptions options = desk::desk_options();
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    const desk::DeskOptions asked = desk::read_desk_options(options, invocation.library);
    asio::io_context context(1);
    // Ends in order instead of at once: what runs is stopped, and undone where it is unfinished.
    asio::signal_set signals(context, SIGINT, SIGTERM, SIGHUP);
    signals.async_wait([&](const boost::system::error_code &, int) { context.stop(); });
    desk::HttpServer server(context, tcp::endpoint(asio::ip::address_v4::loopback(), asked.port));
    const desk::RequestGuard guard(desk::random_key(), server.port());
    setenv("COSPOT_PROGRESS", "1", 1); // NOLINT(concurrency-mt-unsafe): before any thread
    desk::Desk desk({.library = invocation.library, .sheets = asked.sheets, .pages = asked.pages},
                    guard, [&] { asio::post(context, [&] { context.stop(); }); });
    server.serve(desk.handler());

    // A message, since results wait for the end of the verb where nobody sees them at once.
    invocation.err << "The desk of " << invocation.library.string() << " is open at\n  "
                   << guard.address() << '\n';
    std::unique_ptr<Classroom> classroom;
    if (asked.classroom) {
        classroom = std::make_unique<Classroom>(context, *asked.classroom, desk);
        announce_class(*classroom, asked.classroom->tls.has_value(), invocation.err);
    }
    invocation.err << "Ctrl-C ends it.\n" << std::flush;
    if (asked.opens_browser && !desk::open_browser(guard.address())) {
        invocation.err << "No browser was found here: open the address in one.\n";
    }
    context.run();
    desk.close();
    invocation.out << "The desk is closed; the sheets are kept in " << asked.sheets.string()
                   << '\n';
    return kDone;
}

} // namespace cospot
