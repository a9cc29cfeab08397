#include "document/terminal.h"

#include "document/terminal_table.h"
#include "shared/text.h"

#include <map>
#include <set>
#include <vector>

namespace cospot {

namespace {

constexpr std::size_t kWidth = 80;
constexpr std::size_t kSectionIndent = 2; ///< of what belongs to a section of a section

using AlikeTables = std::map<std::string, std::vector<const Table *>>;

void gather(const std::vector<Block> &blocks, AlikeTables &tables) {
    for (const Block &block : blocks) {
        if (const auto *table = std::get_if<Table>(&block)) {
            tables[table->kind].push_back(table);
        } else if (const auto *section = std::get_if<Section>(&block)) {
            gather(section->blocks, tables);
        } else if (const auto *beside = std::get_if<Beside>(&block)) {
            gather(beside->blocks, tables);
        } else if (const auto *details = std::get_if<Details>(&block)) {
            gather(details->blocks, tables);
        }
    }
}

class Writer {
public:
    Writer(const Document &document, const TerminalSettings &settings) : settings_(settings) {
        AlikeTables tables;
        gather(document.blocks, tables);
        for (const auto &[kind, alike] : tables) {
            if (!kind.empty()) {
                widths_.emplace(kind, natural_widths(alike));
            }
        }
    }

    void write(const std::vector<Block> &blocks) {
        for (const Block &block : blocks) {
            std::visit([this](const auto &content) { add(content); }, block);
        }
    }

    [[nodiscard]] std::string text() && { return std::move(text_); }

private:
    void add(const Paragraph &paragraph) {
        const std::string text = printable(paragraph.text);
        const bool is_advice = paragraph.role == Paragraph::Role::advice;
        add_lines(wrapped(is_advice ? "To do: " + text : text, 0, width()),
                  paragraph.role == Paragraph::Role::verdict);
    }

    void add(const List &list) {
        if (list.items.empty()) {
            return;
        }
        if (!list.heading.empty()) {
            add_lines(wrapped(printable(list.heading), 0, width()), false);
        }
        const char *mark = list.role == List::Role::warnings ? "! " : "- ";
        for (const std::string &item : list.items) {
            const std::string lines = wrapped(printable(item), kSectionIndent, width());
            add_lines(mark + lines.substr(kSectionIndent), false);
        }
    }

    void add(const Table &table) {
        if (table.rows.empty()) {
            return;
        }
        if (!table.caption.empty()) {
            add_lines(wrapped(printable(table.caption), 0, width()), false);
        }
        const auto known = widths_.find(table.kind);
        const bool is_first = table.kind.empty() || headed_.insert(table.kind).second;
        add_lines(table_text(table,
                             known == widths_.end() ? natural_widths({&table}) : known->second,
                             width(), settings_.style, is_first),
                  false);
    }

    void add(const Figure &figure) { add_lines(figure.terminal, false); }

    void add(const Structures & /*unused*/) {}

    /// A section of which a terminal shows nothing has no heading either.
    void add(const Section &section) {
        const std::size_t before = text_.size();
        text_ += text_.empty() ? "" : "\n";
        std::string heading = printable(section.heading);
        if (section.badge) {
            heading += " (" + printable(section.badge->text) + ')';
        }
        add_lines(wrapped(heading, 0, width()), true);
        const std::size_t headed = text_.size();
        ++depth_;
        write(section.blocks);
        --depth_;
        if (text_.size() == headed) {
            text_.resize(before);
        }
    }

    void add(const Beside &beside) { write(beside.blocks); }

    void add(const Details &details) {
        if (settings_.with_details) {
            write(details.blocks);
        }
    }

    [[nodiscard]] std::size_t indent() const { return depth_ > 1 ? kSectionIndent : 0; }
    [[nodiscard]] std::size_t width() const { return kWidth - indent(); }

    void add_lines(const std::string &lines, bool is_strong) {
        for (std::size_t begin = 0; begin < lines.size();) {
            const std::size_t end = lines.find('\n', begin);
            const std::string line = lines.substr(begin, end - begin);
            if (!line.empty()) {
                text_ +=
                    std::string(indent(), ' ') + (is_strong ? settings_.style.strong(line) : line);
            }
            text_ += '\n';
            begin = end == std::string::npos ? lines.size() : end + 1;
        }
    }

    TerminalSettings settings_;
    std::map<std::string, ColumnWidths> widths_;
    std::set<std::string> headed_;
    std::size_t depth_ = 0;
    std::string text_;
};

} // namespace

std::string terminal_text(const Document &document, const TerminalSettings &settings) {
    Writer writer(document, settings);
    writer.write({List{"", document.warnings, List::Role::warnings}});
    writer.write(document.blocks);
    std::string text = std::move(writer).text();
    if (!document.notes.empty() || !document.cautions.empty()) {
        text += '\n';
    }
    for (const std::string &note : document.notes) {
        text += wrapped(printable(note), 0);
    }
    for (const std::string &caution : document.cautions) {
        text += wrapped(caution, 0);
    }
    return text;
}

} // namespace cospot
