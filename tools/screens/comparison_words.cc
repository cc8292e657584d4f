#include "screens/comparison_words.h"

#include <algorithm>
#include <cstdlib>

namespace tenwinters::screens {
namespace {

std::string first_name(const Voice& voice, const Comparison& two) { return voice.cultivar_name(two.first.cultivar); }
std::string second_name(const Voice& voice, const Comparison& two) { return voice.cultivar_name(two.second.cultivar); }

}  // namespace

std::string lead_text(const Voice& voice, const Comparison& two) {
  const std::string one = first_name(voice, two), other = second_name(voice, two);
  const std::string& leader = two.first_leads ? one : other;
  const std::string& led = two.first_leads ? other : one;
  const bool first_grows = two.first.shelf != Shelf::not_here, second_grows = two.second.shelf != Shelf::not_here;
  if (!first_grows && !second_grows) return voice.say("explain.neither", {{"first", one}, {"second", other}});
  if (first_grows != second_grows) return voice.say("explain.lead_alone", {{"first", leader}, {"second", led}});
  if (two.first.shelf != two.second.shelf) return voice.say("explain.lead_shelf", {{"first", leader}, {"second", led}});
  if (two.lead == 0) return voice.say("explain.level", {{"first", one}, {"second", other}});
  return voice.say("explain.lead", {{"first", leader}, {"second", led}, {"n", std::to_string(std::abs(two.lead))}});
}

std::string change_text(const Voice& voice, const Change& change) {
  const std::string question = "questions." + change.question;
  return voice.say("explain.change", {{"question", voice.say(question + ".ask")}, {"answer", voice.say(question + ".answers." + change.answer)}});
}

std::string turn_text(const Voice& voice, const Comparison& two, const Turn& turn) {
  const std::string leads = turn.first_leads ? first_name(voice, two) : second_name(voice, two);
  const int by = turn.first_leads ? turn.lead : -turn.lead;
  if (by == kBeyondPoints) return voice.say("explain.turn_alone", {{"tree", leads}});
  if (by <= 0) return voice.say("explain.turn_shelf", {{"tree", leads}});
  return voice.say("explain.turn_lead", {{"tree", leads}, {"n", std::to_string(by)}});
}

std::string cold_turn_text(const Voice& voice, const Comparison& two) {
  if (!two.cold) return voice.say("explain.no_cold", {{"by", voice.figure(ArgKind::celsius_difference, 6)}});
  return voice.say(two.cold->warmer_c < 0 ? "explain.colder" : "explain.warmer",
                   {{"low", voice.figure(ArgKind::celsius, two.cold->usual_low_c)},
                    {"now", voice.figure(ArgKind::celsius, two.usual_low_c)},
                    {"tree", two.first_leads ? second_name(voice, two) : first_name(voice, two)}});
}

}  // namespace tenwinters::screens
