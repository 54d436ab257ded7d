#pragma once

#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "engine/model/part_kind.h"
#include "engine/model/reading/report.h"
#include "engine/model/structure.h"
#include "engine/xml/document.h"

namespace halfsplit::model::reading {

/// Attributes that may stand on an element. Where lists share a name, the first declares it.
struct Declared {
    std::span<const NumberSpec> numbers;
    std::span<const WordSpec> words;
};
inline Declared declared_by(const StructureSpec& spec) {
    return {spec.numbers, spec.words};
}

/// The attributes of one element, checked against their declarations when constructed: all known, none
/// missing, numbers in range, words among their choices. What is wrong is reported and counts as not given.
class Fields {
  public:
    Fields(const Context& context, const xml::Element& element, const std::vector<Declared>& declared);

    bool good() const { return good_; }  ///< nothing was wrong
    bool gives(std::string_view name) const { return values_.find(name) != values_.end(); }
    std::string word(std::string_view name) const;  ///< as given, else the declared fallback
    double number(std::string_view name) const;     ///< likewise; NaN where there is neither
    Location where() const { return context_.at(element_.where); }
    xml::Mark mark(
        std::string_view name) const;  ///< of the attribute, or of the element where it is not given
    /// Reports an error at the attribute.
    void refuse(std::string_view name, std::string message);
    /// The word, refused unless it is an XML name that is not reserved; "" then.
    std::string name_word(std::string_view name);

  private:
    void refuse_unknown();
    void take_word(const WordSpec& spec);
    void take_number(const NumberSpec& spec);
    void refuse_missing(std::string_view name, const std::string& expected);

    const Context& context_;
    const xml::Element& element_;
    std::vector<std::string_view> known_;         ///< names of the attributes that may stand here
    std::vector<std::string_view> misspelt_;      ///< those that an unknown attribute probably means
    std::map<std::string_view, double> numbers_;  ///< given and right, or the fallback
    std::map<std::string_view, std::string_view> words_;
    std::map<std::string_view, const xml::Attribute*> values_;  ///< given and right
    bool good_ = true;
};

/// "a number from 0 to 10 ohm"
std::string expected_number(const NumberSpec& spec);

/// Checks attributes and children of an element from which nothing but its children is read.
void check_container(const Context& context, const xml::Element& element, const StructureSpec& spec);

/// Reports children that may not stand in the element, stand there twice or out of order, are missing, and
/// text where none is expected.
void check_children(const Context& context, const xml::Element& element, const StructureSpec& spec);

/// Reports a child whose name is not one of `known`.
void refuse_unknown_child(const Context& context, const xml::Element& parent, const xml::Element& child,
                          const std::vector<std::string_view>& known);
/// Reports text and children in an element that takes none.
void refuse_content(const Context& context, const xml::Element& element);
void refuse_text(const Context& context, const xml::Element& element);

}  // namespace halfsplit::model::reading
