#include "model/naming.h"

#include <algorithm>
#include <cctype>
#include <string>

#include "model/letter_case.h"

namespace haymow {
namespace {

bool is_letter(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0; }

bool has_words(const std::string& text, const std::string& words) {
  for (auto at = text.find(words); at != std::string::npos; at = text.find(words, at + 1)) {
    const bool starts = at == 0 || !is_letter(text[at - 1]);
    const auto end = at + words.size();
    if (starts && (end == text.size() || !is_letter(text[end]))) return true;
  }
  return false;
}

}  // namespace

bool refers_to(std::string_view what, const Feed& feed) {
  const std::string wanted = small_letters(what);
  if (wanted.empty()) return false;
  const auto named = [&](std::string_view name) { return small_letters(name) == wanted; };
  if (named(name_of(feed.group)) || has_words(small_letters(feed.name), wanted)) return true;
  if (std::any_of(feed.also.begin(), feed.also.end(), named)) return true;
  return std::any_of(feed.traits.begin(), feed.traits.end(),
                     [&](FeedTrait trait) { return named(name_of(trait)); });
}

bool refers_to(std::string_view what, const Offer& offer) {
  return same_letters(offer.name, what) || refers_to(what, offer.feed);
}

}  // namespace haymow
