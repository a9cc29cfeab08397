#pragma once

#include "document/progress.h"
#include "learn/learner.h"
#include "learn/refused_rows.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// A row as it was read, or why it could not be.
template <typename Row> struct ReadRow {
    Row row;
    std::optional<InputError> fault;
    std::vector<std::string> fields; ///< as in the file; kept only where rows may be refused
};

/// Rows are learned in batches: the structures of a batch are read on all cores before its rows are
/// written one by one. A batch, not the file, is held in memory.
inline constexpr std::size_t kBatchRows = 4096;

/// Reads up to `kBatchRows` rows, faulty ones among them; empty at the end.
template <typename Row, typename Source>
std::vector<ReadRow<Row>> read_batch(Source &source, bool keeps_fields) {
    std::vector<ReadRow<Row>> batch;
    while (batch.size() < kBatchRows) {
        ReadRow<Row> read;
        try {
            if (!source.next(read.row)) {
                break;
            }
        } catch (const InputError &error) {
            read.fault = error;
        }
        if (keeps_fields) {
            read.fields = source.fields();
        }
        batch.push_back(std::move(read));
    }
    return batch;
}

/// Learns all rows of a source (a reader with `next`, `header` and `fields`). Without `refused`,
/// faulty rows throw, all together when the last row is read; with it, faulty rows go there and the
/// others are learned. Returns how many rows there were.
template <typename Row, typename Source>
std::size_t learn_rows(Source &source, Learner &learner, RefusedRows *refused, Progress &progress) {
    std::size_t rows = 0;
    Faults faults;
    while (true) {
        const std::vector<ReadRow<Row>> batch = read_batch<Row>(source, refused != nullptr);
        if (batch.empty()) {
            faults.throw_any();
            return rows;
        }
        rows += batch.size();
        std::vector<std::string> smiles;
        for (const ReadRow<Row> &read : batch) {
            if (!read.fault && !read.row.smiles.empty()) {
                smiles.push_back(read.row.smiles);
            }
        }
        learner.prepare(smiles);
        for (const ReadRow<Row> &read : batch) {
            try {
                if (read.fault) {
                    throw InputError(*read.fault);
                }
                learner.learn(read.row);
            } catch (const InputError &error) {
                if (refused == nullptr) {
                    faults.add(error);
                } else {
                    refused->add(error, source.header(), read.fields);
                }
            }
        }
        progress.advance(batch.size());
    }
}

} // namespace cospot
