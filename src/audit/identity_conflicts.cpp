#include "audit/identity_conflicts.h"

#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

namespace cospot {

namespace {

constexpr std::size_t kSkeletonLength = 14;

using Members = std::vector<const AuditedStructure *>;

bool all_agree(const Members &members, std::string (*key)(const AuditedStructure &)) {
    return std::all_of(members.begin(), members.end(), [&](const AuditedStructure *member) {
        return key(*member) == key(*members.front());
    });
}

std::string skeleton(const AuditedStructure &structure) {
    return structure.inchikey.substr(0, kSkeletonLength);
}

std::string parent(const AuditedStructure &structure) {
    return structure.parent_inchikey;
}

std::string_view how_they_differ(const Members &members) {
    if (all_agree(members, skeleton)) {
        return "they differ in stereo (or isotopes) only";
    }
    return all_agree(members, parent) ? "they are salt and free base or acid of one parent"
                                      : "they differ in their skeleton";
}

std::vector<library::CompoundId> ids_of(const Members &members) {
    std::vector<library::CompoundId> ids;
    for (const AuditedStructure *member : members) {
        ids.push_back(member->id);
    }
    std::sort(ids.begin(), ids.end());
    return ids;
}

/// Groups of structures by a text, in the order of the text.
using Groups = std::map<std::string, Members>;

void add(Groups &groups, const std::string &key, const AuditedStructure &structure) {
    Members &members = groups[key];
    if (members.empty() || members.back() != &structure) {
        members.push_back(&structure);
    }
}

/// Turns each group of several structures that was not found before into a finding.
class Conflicts {
public:
    void add(const Members &members, Finding finding) {
        finding.kind = FindingKind::identity;
        finding.structures = ids_of(members);
        if (known_.insert(finding.structures).second) {
            findings_.push_back(std::move(finding));
        }
    }
    std::vector<Finding> take() { return std::move(findings_); }

private:
    std::set<std::vector<library::CompoundId>> known_;
    std::vector<Finding> findings_;
};

std::string as_written(const std::string &lower_name, const AuditedStructure &structure) {
    return *std::find_if(structure.names.begin(), structure.names.end(),
                         [&](const auto &name) { return lower_ascii(name) == lower_name; });
}

constexpr std::string_view kCorrect =
    "Find out which structure was measured; learn its values under the right structure and retire "
    "the wrong ones.";

} // namespace

std::vector<Finding> identity_findings(const std::vector<AuditedStructure> &structures) {
    Groups by_name;
    Groups by_cas;
    Groups by_skeleton;
    for (const AuditedStructure &structure : structures) {
        for (const std::string &name : structure.names) {
            add(by_name, lower_ascii(name), structure);
        }
        if (!structure.cas.empty()) {
            add(by_cas, structure.cas, structure);
        }
        add(by_skeleton, skeleton(structure), structure);
    }
    Conflicts conflicts;
    for (const auto &[name, members] : by_name) {
        if (members.size() > 1) {
            conflicts.add(members, {.subject = as_written(name, *members.front()),
                                    .text = fmt::format("{} structures bear this name; {}.",
                                                        members.size(), how_they_differ(members)),
                                    .advice = std::string(kCorrect)});
        }
    }
    for (const auto &[cas, members] : by_cas) {
        if (members.size() > 1) {
            conflicts.add(members,
                          {.subject = cas,
                           .text = fmt::format("{} structures have this registry number; {}.",
                                               members.size(), how_they_differ(members)),
                           .advice = std::string(kCorrect)});
        }
    }
    for (const auto &[key, members] : by_skeleton) {
        const auto open = std::find_if(members.begin(), members.end(),
                                       [](const auto *member) { return member->open_stereo; });
        if (members.size() > 1 && open != members.end()) {
            conflicts.add(members,
                          {.subject = (*open)->names.front(),
                           .text = fmt::format("{} structures differ in stereo (or isotopes) only, "
                                               "and this one leaves stereo open: it may be one of "
                                               "the others.",
                                               members.size()),
                           .advice = "Give its stereo if it is known, and learn its values under "
                                     "that structure; achiral phases cannot tell enantiomers "
                                     "apart."});
        }
    }
    return conflicts.take();
}

} // namespace cospot
