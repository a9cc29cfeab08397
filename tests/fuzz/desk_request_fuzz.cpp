// What a browser, or whoever pretends to be one, sends to the desk: a head as Beast reads it, then
// the address, the key and the JSON of a call.
#include "desk/request_guard.h"
#include "desk/sheet_store.h"
#include "desk/url.h"
#include "desk/verb_call.h"
#include "fuzzed.h"

#include <boost/beast/http/parser.hpp>
#include <boost/beast/http/string_body.hpp>

using namespace cospot;
namespace http = boost::beast::http;

namespace {

std::string_view text_of(boost::beast::string_view text) {
    return {text.data(), text.size()};
}

void check_call(const std::string &body) {
    const Json asked = Json::parse(body, nullptr, false);
    if (asked.is_discarded()) {
        return;
    }
    (void)fuzz::accepts([&] {
        const desk::VerbCall call = desk::verb_call(asked);
        for (const std::string &argument : call.arguments) {
            fuzz::require(!argument.starts_with("--library") && !argument.starts_with("--report"),
                          "a call sets neither library nor report");
        }
    });
}

} // namespace

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    const std::string text = fuzz::text_of(data, size);
    http::request_parser<http::string_body> parser;
    parser.eager(true);
    boost::system::error_code error;
    parser.put(boost::asio::buffer(text), error);
    if (!parser.is_header_done()) {
        return 0;
    }
    const auto &request = parser.get();
    const desk::RequestGuard guard("00112233445566778899aabbccddeeff", 4711);
    const auto verdict = guard.judge({.method = text_of(request.method_string()),
                                      .target = text_of(request.target()),
                                      .host = text_of(request[http::field::host]),
                                      .origin = text_of(request[http::field::origin]),
                                      .fetch_site = text_of(request["Sec-Fetch-Site"]),
                                      .cookie = text_of(request[http::field::cookie]),
                                      .own_header = text_of(request["X-Cospot-Desk"])});
    fuzz::require(verdict != desk::Verdict::answered ||
                      text.find("00112233445566778899aabbccddeeff") != std::string::npos,
                  "nobody is answered without the key");
    for (const std::string &part : desk::target_of(text_of(request.target())).path) {
        fuzz::require(!desk::is_file_name(part) || part.find('/') == std::string::npos,
                      "the name of a file holds no path");
    }
    check_call(request.body());
    return 0;
}
