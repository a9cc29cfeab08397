#include "audit/elution_order.h"

#include "audit/audit_scale.h"
#include "audit/replicates.h"
#include "audit/robust.h"
#include "model/matcher/retention_scale.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace cospot {

namespace {

constexpr double kClearSpreads = 4.0;
constexpr std::size_t kMostPartners = 200;
constexpr std::size_t kMostTried = 2000; // where few compounds share systems
constexpr std::size_t kFewestOthers = 2;
constexpr std::size_t kFewestContradicted = 3;
constexpr double kLeastShare = 1.0 / 3.0;
constexpr double kNearEnd = 0.05; // of R_F
constexpr std::size_t kShownPartners = 3;

struct Place {
    std::size_t system = 0;
    double scaled = 0.0;
    library::MeasurementId measurement{};
};

/// A compound with its values in the order of systems.
struct Member {
    library::CompoundId id{};
    std::vector<Place> places;
};

/// Members of a family that are on enough systems to contradict anything.
std::vector<Member> members_of(const std::vector<OrderTable::System> &systems) {
    std::map<library::CompoundId, std::vector<Place>> places;
    for (std::size_t s = 0; s < systems.size(); ++s) {
        for (const OrderTable::Value &value : systems[s].values) {
            places[value.compound].push_back({s, value.scaled, value.measurement});
        }
    }
    std::vector<Member> members;
    for (auto &[id, of_compound] : places) {
        if (of_compound.size() > kFewestOthers) {
            members.push_back({id, std::move(of_compound)});
        }
    }
    return members;
}

/// Where the order of two members is clear: places of the first one, by which has the lower value.
struct ClearOrders {
    std::vector<std::size_t> first_lower;
    std::vector<std::size_t> second_lower;
    std::size_t shared = 0; // systems that both were measured on
};

void find_clear_orders(const Member &first, const Member &second,
                       const std::vector<OrderTable::System> &systems, ClearOrders &orders) {
    orders.first_lower.clear();
    orders.second_lower.clear();
    orders.shared = 0;
    auto b = second.places.begin();
    for (std::size_t i = 0; i < first.places.size(); ++i) {
        const Place &a = first.places[i];
        while (b != second.places.end() && b->system < a.system) {
            ++b;
        }
        if (b == second.places.end()) {
            break;
        }
        if (b->system != a.system) {
            continue;
        }
        ++orders.shared;
        const double difference = b->scaled - a.scaled;
        if (std::abs(difference) > systems[a.system].clear) {
            (difference > 0.0 ? orders.first_lower : orders.second_lower).push_back(i);
        }
    }
}

/// What one member shows on one system.
struct Judged {
    std::vector<std::size_t> contradicted; ///< members whose order with it is another elsewhere
    std::size_t comparable = 0;            ///< members that it could have contradicted
};

/// Judges the places of one member by its order with `partner`.
void judge_pair(std::size_t partner, const ClearOrders &orders, std::vector<Judged> &places) {
    const bool first_is_rare = orders.first_lower.size() < orders.second_lower.size();
    const auto &few = first_is_rare ? orders.first_lower : orders.second_lower;
    const auto &many = first_is_rare ? orders.second_lower : orders.first_lower;
    if (few.empty() && many.size() > kFewestOthers) {
        for (const std::size_t place : many) {
            ++places[place].comparable;
        }
    } else if (few.size() == 1 && many.size() >= kFewestOthers) {
        ++places[few.front()].comparable;
        places[few.front()].contradicted.push_back(partner);
    }
}

/// The n-th partner to try, counted from the member itself: steps through all the others, then
/// again from the next start, until each was met.
std::size_t partner_distance(std::size_t n, std::size_t others, std::size_t step) {
    const std::size_t laps = others / step; // full ones
    return n < laps * step ? 1 + n % laps * step + n / laps : n + 1;
}

/// What the member of that index shows at each of its places.
std::vector<Judged> judge_member(std::size_t index, const std::vector<Member> &members,
                                 const std::vector<OrderTable::System> &systems) {
    const std::size_t others = members.size() - 1;
    const std::size_t step = std::max<std::size_t>(1, others / kMostPartners);
    std::vector<Judged> places(members[index].places.size());
    ClearOrders orders;
    std::size_t partners = 0;
    for (std::size_t n = 0; n < std::min(others, kMostTried) && partners < kMostPartners; ++n) {
        const std::size_t partner = (index + partner_distance(n, others, step)) % members.size();
        find_clear_orders(members[index], members[partner], systems, orders);
        if (orders.shared > kFewestOthers) {
            ++partners;
            judge_pair(partner, orders, places);
        }
    }
    return places;
}

bool is_suspect(const Judged &judged) {
    return judged.contradicted.size() >= kFewestContradicted &&
           static_cast<double>(judged.contradicted.size()) >=
               kLeastShare * static_cast<double>(judged.comparable);
}

/// What suspect members show on one system, by member.
using Suspects = std::map<std::size_t, Judged>;

std::vector<Suspects> suspects_of_family(const std::vector<Member> &members,
                                         const std::vector<OrderTable::System> &systems) {
    std::vector<Suspects> suspects(systems.size());
    for (std::size_t i = 0; i < members.size(); ++i) {
        std::vector<Judged> places = judge_member(i, members, systems);
        for (std::size_t place = 0; place < places.size(); ++place) {
            if (is_suspect(places[place])) {
                suspects[members[i].places[place].system].emplace(i, std::move(places[place]));
            }
        }
    }
    return suspects;
}

/// Takes out the member that contradicts most, with all its contradictions; end if none is suspect.
std::optional<std::pair<std::size_t, Judged>> take_worst(Suspects &suspects) {
    auto worst = suspects.end();
    for (auto it = suspects.begin(); it != suspects.end(); ++it) {
        if (is_suspect(it->second) &&
            (worst == suspects.end() ||
             it->second.contradicted.size() > worst->second.contradicted.size())) {
            worst = it;
        }
    }
    if (worst == suspects.end()) {
        return std::nullopt;
    }
    const std::pair<std::size_t, Judged> taken = *worst;
    suspects.erase(worst);
    for (auto &[member, judged] : suspects) {
        std::erase(judged.contradicted, taken.first);
    }
    return taken;
}

const Place &place_on(const Member &member, std::size_t system) {
    return *std::find_if(member.places.begin(), member.places.end(),
                         [&](const Place &place) { return place.system == system; });
}

Finding contradiction(const OrderTable &table, const std::vector<OrderTable::System> &systems,
                      const std::vector<Member> &members, std::size_t system,
                      const std::pair<std::size_t, Judged> &suspect) {
    const auto &[self, judged] = suspect;
    const Member &member = members[self];
    const Member &example = members[judged.contradicted.front()];
    ClearOrders orders;
    find_clear_orders(member, example, systems, orders);
    const bool is_lower_here = orders.first_lower.size() == 1;
    const auto &elsewhere = is_lower_here ? orders.second_lower : orders.first_lower;
    Finding finding{
        .kind = FindingKind::elution_order,
        .subject = table.names.at(member.id) + " on " + systems[system].name,
        .text = fmt::format("Its order with {} of {} other compounds is the opposite of that on "
                            "the other systems of this stationary phase; e.g. it has a {} value "
                            "than {} here and a {} one on {} other systems.",
                            judged.contradicted.size(), judged.comparable,
                            is_lower_here ? "lower" : "higher", table.names.at(example.id),
                            is_lower_here ? "higher" : "lower", elsewhere.size()),
        .advice = "Check for an exchanged spot, peak or label and measure it again here; retire "
                  "the value if it is wrong. Where the mobile phase explains it (an acid or base, "
                  "say), leave it."};
    finding.rows.push_back({place_on(member, system).measurement, true});
    for (std::size_t i = 0; i < std::min(judged.contradicted.size(), kShownPartners); ++i) {
        finding.rows.push_back(
            {place_on(members[judged.contradicted[i]], system).measurement, false});
    }
    for (const std::size_t place : elsewhere) {
        const Place &other = member.places[place];
        finding.rows.push_back({other.measurement, false});
        finding.rows.push_back({place_on(example, other.system).measurement, false});
    }
    return finding;
}

double order_scale(Quantity quantity, double value) {
    return matcher::to_model_scale(
        quantity, quantity == Quantity::Rf ? std::clamp(value, kNearEnd, 1.0 - kNearEnd) : value);
}

} // namespace

std::string order_family(const AuditedSystem &system) {
    const std::string_view phase = trimmed(system.stationary_phase);
    return phase.empty() ? ""
                         : fmt::format("{}\n{}\n{}\n{}", to_text(system.technique),
                                       to_text(system.quantity), system.scale, lower_ascii(phase));
}

void add_to_order_table(OrderTable &table, const AuditedSystem &system) {
    const std::string family = order_family(system);
    if (family.empty()) {
        return;
    }
    OrderTable::System entry{.name = system.name,
                             .clear = kClearSpreads * std::max(replicate_spread(system).spread,
                                                               assumed_spread_on(system)),
                             .values = {}};
    for (const AuditedCompound &compound : system.compounds) {
        std::vector<double> scaled;
        for (const AuditedValue &value : compound.values) {
            scaled.push_back(order_scale(system.quantity, value.value));
        }
        const double centre = median(scaled);
        const auto nearest =
            std::min_element(scaled.begin(), scaled.end(), [&](double a, double b) {
                return std::abs(a - centre) < std::abs(b - centre);
            });
        const auto index = static_cast<std::size_t>(nearest - scaled.begin());
        entry.values.push_back({compound.id, centre, compound.values[index].measurement});
        table.names.try_emplace(compound.id, compound.name);
    }
    table.families[family].push_back(std::move(entry));
}

std::vector<Finding> elution_order_findings(const OrderTable &table) {
    std::vector<Finding> findings;
    for (const auto &[family, systems] : table.families) {
        const std::vector<Member> members = members_of(systems);
        if (systems.size() <= kFewestOthers || members.size() <= kFewestContradicted) {
            continue;
        }
        std::vector<Suspects> suspects = suspects_of_family(members, systems);
        for (std::size_t system = 0; system < systems.size(); ++system) {
            while (const auto suspect = take_worst(suspects[system])) {
                findings.push_back(contradiction(table, systems, members, system, *suspect));
            }
        }
    }
    return findings;
}

} // namespace cospot
