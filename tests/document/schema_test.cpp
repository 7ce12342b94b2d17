// The schema in resources/ against the fields that are read and the documents that are written.
#include "core/document/fields.h"
#include "core/document/file.h"
#include "tests/document/random_project.h"
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

namespace slab {
namespace {

using Json = nlohmann::ordered_json;

const Json& schema() {
    static const Json root = [] {
        std::ifstream in(std::string(SLABSIDE_SOURCE_DIR) + "/resources/slabside.schema.json");
        return Json::parse(in);
    }();
    return root;
}

const Json& resolved(const Json& node) {
    if (!node.contains("$ref") || node.contains("type")) return node;
    return schema().at(Json::json_pointer(node.at("$ref").get<std::string>().substr(1)));
}

/// One property of the schema, as documentFields() tells it.
struct Property {
    bool required = false;
    std::set<std::string> words;
    std::string type;
};
using Properties = std::map<std::string, Property>; ///< by "pointer" or "pointer (kind)"

void walk(const Json& node, const std::string& at, const std::string& kind, Properties& out);

void addProperty(const Json& property, const std::string& pointer, bool required, const std::string& kind,
                 Properties& out) {
    const Json& node = resolved(property);
    EXPECT_TRUE(property.contains("title") || node.contains("title")) << pointer;
    EXPECT_TRUE(property.contains("description") || node.contains("description")) << pointer;
    Property p{required, {}, {}};
    if (node.contains("enum"))
        for (const Json& word : node.at("enum")) p.words.insert(word.get<std::string>());
    p.type = node.at("type").is_array() ? "text" : node.at("type").get<std::string>();
    out[pointer + (kind.empty() ? "" : " (" + kind + ")")] = p;
    if (p.type == "object" && node.contains("properties")) walk(node, pointer, kind, out);
    if (p.type == "array" && node.contains("items") && resolved(node.at("items")).contains("properties"))
        walk(resolved(node.at("items")), pointer + "/*", kind, out);
}

std::string kindOf(const std::string& field) {
    static const std::map<std::string, std::string> kinds = [] {
        std::map<std::string, std::string> all;
        for (const FieldInfo& f : documentFields())
            if (!f.kind.empty() && f.pointer.find('/', 9) == std::string::npos)
                all[f.pointer] += f.kind + ",";
        return all;
    }();
    const auto at = kinds.find(field);
    return at == kinds.end() ? std::string{} : at->second;
}

void walk(const Json& node, const std::string& at, const std::string& kind, Properties& out) {
    std::set<std::string> required;
    if (node.contains("required"))
        for (const Json& name : node.at("required")) required.insert(name.get<std::string>());
    for (const auto& [key, property] : node.at("properties").items()) {
        const std::string pointer = at + "/" + key;
        const std::string kinds = at == "/forms/*" ? kindOf(pointer) : std::string{};
        if (kinds.empty()) {
            addProperty(property, pointer, required.contains(key), kind, out);
            continue;
        }
        for (const Json& rule : node.at("allOf")) { // fields of one kind of form
            const std::string of = rule.at("if").at("properties").at("kind").at("const");
            if (kinds.find(of + ",") == std::string::npos) continue;
            Json merged = property;
            if (rule.at("then").at("properties").contains(key))
                merged.update(rule.at("then").at("properties").at(key));
            const auto& needs = rule.at("then").at("required");
            addProperty(merged, pointer, std::find(needs.begin(), needs.end(), key) != needs.end(), of, out);
        }
    }
}

std::string schemaType(const FieldInfo& f) {
    if (f.type == "object" || f.type == "map") return "object";
    if (f.type == "list" || f.type == "names" || f.type == "pair") return "array";
    if (f.type == "flag") return "boolean";
    if (f.type == "real") return "number";
    if (f.type == "version") return "integer";
    const std::set<std::string> formulas{"length", "angle", "number", "any", "ratio"};
    return formulas.contains(f.role) ? "text" : "string";
}

TEST(Schema, SaysExactlyWhatIsRead) {
    Properties fromSchema, fromReader;
    walk(schema(), "", "", fromSchema);
    for (const FieldInfo& f : documentFields())
        fromReader[f.pointer + (f.kind.empty() ? "" : " (" + f.kind + ")")] =
            Property{f.required, {f.words.begin(), f.words.end()}, schemaType(f)};
    EXPECT_GT(fromReader.size(), 150U);
    for (const auto& [name, p] : fromReader) {
        ASSERT_TRUE(fromSchema.contains(name)) << name << " is read but not in the schema";
        EXPECT_EQ(fromSchema[name].required, p.required) << name;
        EXPECT_EQ(fromSchema[name].words, p.words) << name;
        EXPECT_EQ(fromSchema[name].type, p.type) << name;
    }
    for (const auto& [name, p] : fromSchema)
        EXPECT_TRUE(fromReader.contains(name)) << name << " is in the schema but not read";
}

/// The keywords that our schema uses (JSON Schema 2020-12), nothing more.
class Validator {
public:
    std::vector<std::string> errors;

    void check(const Json& node, const Json& value, const std::string& at) {
        if (node.contains("$ref"))
            check(schema().at(Json::json_pointer(node.at("$ref").get<std::string>().substr(1))), value, at);
        if (node.contains("type") && !typeFits(node.at("type"), value)) errors.push_back(at + ": type");
        if (node.contains("enum") && !contains(node.at("enum"), value)) errors.push_back(at + ": enum");
        if (node.contains("const") && node.at("const") != value) errors.push_back(at + ": const");
        if (value.is_object()) object(node, value, at);
        if (value.is_array()) array(node, value, at);
        if (value.is_number() && node.contains("minimum") && value < node.at("minimum"))
            errors.push_back(at + ": minimum");
        if (value.is_number() && node.contains("maximum") && value > node.at("maximum"))
            errors.push_back(at + ": maximum");
        if (!node.contains("allOf")) return;
        for (const Json& rule : node.at("allOf")) {
            Validator test;
            test.check(rule.at("if"), value, at);
            if (test.errors.empty()) check(rule.at("then"), value, at);
        }
    }

private:
    static bool contains(const Json& list, const Json& value) {
        return std::find(list.begin(), list.end(), value) != list.end();
    }
    static bool typeFits(const Json& type, const Json& value) {
        if (type.is_array())
            return std::any_of(type.begin(), type.end(),
                               [&](const Json& one) { return typeFits(one, value); });
        const std::string name = type;
        return name == "object"    ? value.is_object()
               : name == "array"   ? value.is_array()
               : name == "string"  ? value.is_string()
               : name == "boolean" ? value.is_boolean()
               : name == "integer" ? value.is_number_integer()
               : name == "number"  ? value.is_number()
               : name == "null"    ? value.is_null()
                                   : false;
    }
    void object(const Json& node, const Json& value, const std::string& at) {
        if (node.contains("required"))
            for (const Json& name : node.at("required"))
                if (!value.contains(name.get<std::string>()))
                    errors.push_back(at + "/" + name.get<std::string>() + ": missing");
        const Json none = Json::object();
        const Json& known = node.contains("properties") ? node.at("properties") : none;
        for (const auto& [key, one] : value.items()) {
            if (known.contains(key))
                check(known.at(key), one, at + "/" + key);
            else if (node.contains("additionalProperties"))
                check(node.at("additionalProperties"), one, at + "/" + key);
        }
    }
    void array(const Json& node, const Json& value, const std::string& at) {
        if (node.contains("minItems") && value.size() < node.at("minItems").get<std::size_t>())
            errors.push_back(at + ": minItems");
        if (node.contains("maxItems") && value.size() > node.at("maxItems").get<std::size_t>())
            errors.push_back(at + ": maxItems");
        if (node.contains("items"))
            for (std::size_t i = 0; i < value.size(); ++i)
                check(node.at("items"), value[i], at + "/" + std::to_string(i));
    }
};

TEST(Schema, FitsWhatIsWritten) {
    auto random = seeded(71);
    for (int i = 0; i < 300 / slowdown; ++i) {
        const std::string text = writeProject(randomProject(random));
        Validator validator;
        validator.check(schema(), Json::parse(text), "");
        ASSERT_TRUE(validator.errors.empty()) << validator.errors[0] << "\n" << text;
    }
}

TEST(Schema, FitsTheSamplesAndRefusesWhatTheReaderRefuses) {
    for (const auto& entry :
         std::filesystem::directory_iterator(std::string(SLABSIDE_SOURCE_DIR) + "/samples")) {
        if (entry.path().extension() != ".json") continue;
        std::ifstream in(entry.path());
        Validator validator;
        validator.check(schema(), Json::parse(in), "");
        EXPECT_TRUE(validator.errors.empty()) << entry.path() << validator.errors[0];
    }
    int refused = 0;
    for (const auto& entry :
         std::filesystem::directory_iterator(std::string(SLABSIDE_SOURCE_DIR) + "/tests/document/corpus")) {
        const std::string name = entry.path().stem().string();
        const bool sound = name.starts_with("sound--");
        // What JSON Schema can say: types, missing fields, words and least counts.
        if (!sound && !name.starts_with("wrong-type--") && !name.starts_with("missing--") &&
            !name.starts_with("empty-outline--") && !name.starts_with("too-few-points--"))
            continue;
        std::ifstream in(entry.path());
        Validator validator;
        validator.check(schema(), Json::parse(in), "");
        EXPECT_EQ(validator.errors.empty(), sound) << name;
        refused += sound ? 0 : 1;
    }
    EXPECT_GE(refused, 15);
}

TEST(Schema, SaysWhatADepthBelowZeroMeans) {
    const std::string words =
        schema().at(Json::json_pointer("/$defs/turntable/properties/depth/description")).get<std::string>();
    for (const char* part : {"above 0", "hangs down", "below 0", "rising drum"})
        EXPECT_NE(words.find(part), std::string::npos) << part << " is not in: " << words;
}

TEST(Guide, ItsExampleIsASoundDocument) {
    std::ifstream in(std::string(SLABSIDE_SOURCE_DIR) + "/resources/document.md");
    const std::string guide{std::istreambuf_iterator<char>(in), {}};
    const std::size_t begin = guide.find("```json\n") + 8;
    const std::string example = guide.substr(begin, guide.find("```", begin) - begin);
    for (const Error& e : validateProject(example)) ADD_FAILURE() << e.where << ": " << e.message;
    Validator validator;
    validator.check(schema(), Json::parse(example), "");
    EXPECT_TRUE(validator.errors.empty()) << validator.errors[0];
}

} // namespace
} // namespace slab
