// The measuring sheet's readings in the report.
#include "core/donor/measures.h"
#include "core/donor/reading.h"
#include "core/evaluate/report_parts.h"
#include <cmath>
#include <nlohmann/json.hpp>
#include <numbers>

namespace slab {

nlohmann::ordered_json measuresReport(const Project& project, const Evaluation& e) {
    using MeasureJson = nlohmann::ordered_json;
    MeasureJson list = MeasureJson::array();
    if (!e.scope || project.donor.measures.empty()) return list;
    std::vector<Finding> told; // by the pipeline
    Reading reading(*e.scope, told);
    for (const TypedMeasure& t : typedMeasures(project.donor, project.donor.kind, reading)) {
        const double unit = t.measure.kind == Kind::angle ? 180 / std::numbers::pi : 1;
        const ReadingCheck& c = t.check;
        list.push_back({{"name", t.name},
                        {"letter", t.measure.letter},
                        {"read", (c.fitted + c.residual) * unit},
                        {"fitted", c.fitted * unit},
                        {"residual", c.residual * unit},
                        {"by_the_others", c.expected * unit},
                        {"checked", c.redundancy},
                        {"left_out", c.leftOut}});
    }
    return list;
}

} // namespace slab
