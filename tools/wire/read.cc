#include "wire/read.h"

#include "wire/wire.h"

namespace tenwinters {
namespace wire {

std::string_view kind_of(const Value& json) {
  constexpr std::string_view kKinds[] = {"null", "boolean", "boolean", "object", "array", "string", "number"};
  return kKinds[json.GetType()];
}

// Parsed in place, without recursion: text from outside may be nested as deep as it is long.
Parsed::Parsed(std::string_view text) : text_(text) {
  constexpr unsigned kStrict = rapidjson::kParseInsituFlag | rapidjson::kParseIterativeFlag | rapidjson::kParseFullPrecisionFlag |
                               rapidjson::kParseValidateEncodingFlag;
  // The parser takes a zero byte for the end of the text, but reads on in a character that it cuts off.
  constexpr std::size_t kRestOfCharacter = 3;
  text_.append(kRestOfCharacter, '\0');
  broken_ = text.find('\0') != std::string_view::npos || document_.ParseInsitu<kStrict>(text_.data()).HasParseError();
}

const Value* Reader::find(std::string_view name) {
  if (!ok_) return nullptr;
  const auto at = json_.FindMember(Value(rapidjson::StringRef(name.data(), static_cast<rapidjson::SizeType>(name.size()))));
  ok_ = at != json_.MemberEnd();
  return ok_ ? &at->value : nullptr;
}

Reader::Columns::Columns(const Value& by_name) {
  for (auto member = by_name.MemberBegin(); member != by_name.MemberEnd(); ++member) {
    ok = ok && member->value.IsArray();
    columns_.push_back({text_of(member->name), &member->value});
  }
}

const Value* Reader::Columns::next(std::string_view name) {
  if (!ok) return nullptr;
  for (Column& column : columns_)
    if (column.name == name && column.next < column.list->Size()) return &(*column.list)[column.next++];
  ok = false;
  return nullptr;
}

constexpr int kMostInColumn = 10000;

void Reader::Columns::operator()(std::string_view name, std::vector<Spell>& spells) {
  int count = 0;
  (*this)(name, count, 0, kMostInColumn);
  for (Column& column : columns_) column.sum = 0;
  for (; ok && count > 0; --count) fields(*this, spells.emplace_back());
}

void Reader::Columns::step(std::string_view name, int& value, int low, int high) {
  (*this)(name, value, -kMostInColumn, kMostInColumn);
  if (!ok) return;
  for (Column& column : columns_)
    if (column.name == name) value = column.sum += value;
  ok = value >= low && value <= high;
}

bool Reader::Columns::all_read() const {
  for (const Column& column : columns_)
    if (column.next != column.list->Size()) return false;
  return true;
}

void Reader::columns(std::string_view name, std::vector<Winter>& winters) {
  const Value* by_name = find(name);
  if (by_name == nullptr) return;
  ok_ = by_name->IsObject();
  if (!ok_) return;
  Columns columns(*by_name);
  constexpr const char* kEach = "year";
  const auto years = by_name->FindMember(kEach);
  const rapidjson::SizeType count = years == by_name->MemberEnd() || !years->value.IsArray() ? 0 : years->value.Size();
  winters.resize(count);
  for (Winter& winter : winters) fields(columns, winter);
  ok_ = columns.ok && columns.all_read();
}

bool Reader::plain(const Value& json, bool& value) {
  value = json.IsTrue();
  return json.IsBool();
}

bool Reader::plain(const Value& json, double& value) {
  constexpr double kMost = 1e5;
  if (!json.IsNumber()) return false;
  value = json.GetDouble();
  return value >= -kMost && value <= kMost;
}

bool Reader::plain(const Value& json, int& value) {
  constexpr int kMost = 100000;
  if (!json.IsInt()) return false;
  value = json.GetInt();
  return value >= -kMost && value <= kMost;
}

bool Reader::plain(const Value& json, std::string& value) {
  if (!json.IsString()) return false;
  value = text_of(json);
  return true;
}

bool Reader::plain(const Value& json, Fact& fact) {
  return json.IsArray() && json.Size() == 3 && plain(json[0], fact.best) && plain(json[1], fact.low) && plain(json[2], fact.high) &&
         fact.low <= fact.best && fact.best <= fact.high;
}

bool Reader::plain(const Value& json, Window& window) {
  const auto month = [](int m) { return m >= 1 && m <= 12; };
  return json.IsArray() && json.Size() == 2 && plain(json[0], window.from_month) && plain(json[1], window.to_month) &&
         month(window.from_month) && month(window.to_month);
}

bool Reader::plain(const Value& json, std::array<bool, kTissueCount>& covers) {
  std::vector<Tissue> tissues;
  if (!read(json, tissues)) return false;
  covers.fill(false);
  for (Tissue tissue : tissues) covers[static_cast<std::size_t>(tissue)] = true;
  return true;
}

bool Reader::plain(const Value& json, std::pair<double, double>& point) {
  return json.IsArray() && json.Size() == 2 && plain(json[0], point.first) && plain(json[1], point.second);
}

bool Reader::plain(const Value& json, std::pair<Variable, std::string>& sets) {
  Yard yard;
  return json.IsArray() && json.Size() == 2 && read(json[0], sets.first) && read(json[1], sets.second) &&
         set_variable(yard, sets.first, sets.second);
}

bool Reader::plain(const Value& json, std::vector<std::int16_t>& hours) {
  constexpr int kColdest = -1000, kHottest = 1000;
  if (!json.IsArray()) return false;
  hours.clear();
  hours.reserve(json.Size());
  int now = 0;
  for (const Value& one : json.GetArray()) {
    int step = 0;
    if (!one.IsNull() && !plain(one, step)) return false;
    now = one.IsNull() ? 0 : now + step;
    if (now < kColdest || now > kHottest) return false;
    hours.push_back(one.IsNull() ? kWarm : static_cast<std::int16_t>(now));
  }
  return true;
}

namespace {

constexpr const char* kType = "type", *kTypes = "types", *kTraits = "traits", *kId = "id", *kCultivars = "cultivars";

// Gives each cultivar the traits of its type that its own list leaves out; false where there is no such type,
// or a trait that no type has.
bool inherit_traits(Document& catalog) {
  const auto member = [](Value& of, const char* name) -> Value* {
    if (!of.IsObject()) return nullptr;
    const auto at = of.FindMember(name);
    return at == of.MemberEnd() ? nullptr : &at->value;
  };
  Value* types = member(catalog, kTypes);
  Value* cultivars = member(catalog, kCultivars);
  if (types == nullptr || cultivars == nullptr || !types->IsArray() || !cultivars->IsArray()) return false;
  for (Value& cultivar : cultivars->GetArray()) {
    const Value* wanted = member(cultivar, kType);
    Value* own = member(cultivar, kTraits);
    Value* all = nullptr;
    if (wanted == nullptr || own == nullptr || !own->IsObject()) return false;
    for (Value& type : types->GetArray())
      if (const Value* id = member(type, kId); id != nullptr && *id == *wanted) all = member(type, kTraits);
    if (all == nullptr || !all->IsObject()) return false;
    for (auto trait = all->MemberBegin(); trait != all->MemberEnd(); ++trait)
      if (!own->HasMember(trait->name))
        own->AddMember(Value(trait->name, catalog.GetAllocator()), Value(trait->value, catalog.GetAllocator()), catalog.GetAllocator());
    if (own->MemberCount() != all->MemberCount()) return false;
  }
  return true;
}

}  // namespace
}  // namespace wire

std::optional<Catalog> catalog_from_json(std::string_view text) {
  wire::Parsed parsed(text);
  Catalog catalog;
  if (parsed.value() == nullptr || !wire::inherit_traits(parsed.document()) || !wire::Reader::read(*parsed.value(), catalog)) return std::nullopt;
  return catalog;
}

std::optional<Office> office_from_json(std::string_view text) {
  const wire::Parsed parsed(text);
  Office office;
  if (parsed.value() == nullptr || !wire::Reader::read(*parsed.value(), office)) return std::nullopt;
  return office;
}

}  // namespace tenwinters
