#include "engine/xml/scan.h"

#include <algorithm>

#include "engine/xml/cursor.h"
#include "engine/xml/limits.h"
#include "engine/xml/references.h"

namespace halfsplit::xml {
namespace {

/// Every step says whether scanning can go on after it. Errors that leave no doubt about what follows are
/// noted and passed over.
class Scanner {
  public:
    Scanner(std::string_view text, const std::string& file) : cursor_(text), file_(file) {}

    tl::expected<Markup, Diagnostics> scan() {
        if (scan_declaration() && scan_content()) check_end();
        if (!errors_.empty()) return tl::unexpected(errors_);
        return markup_;
    }

  private:
    struct OpenElement {
        std::string_view name;
        Mark where;
        std::size_t index = 0;
    };

    void note(Mark where, std::string message) {
        if (errors_.size() < kMaxErrors)
            errors_.push_back({{file_, where.line, where.column}, std::move(message)});
    }
    bool stop(Mark where, std::string message) {
        note(where, std::move(message));
        return false;
    }

    bool scan_declaration() {
        const std::string_view beginning = cursor_.rest().substr(0, 6);
        if (!cursor_.sees("<?xml") || !is_space(beginning.back())) return true;
        const Mark where = cursor_.mark();
        const std::size_t begin = cursor_.offset();
        if (!cursor_.advance_to("?>"))
            return stop(where, "the XML declaration is not closed; ?> is expected");
        if (!is_plain_declaration(cursor_.since(begin)))
            return stop(where, R"(<?xml version="1.0" encoding="UTF-8"?> is expected here, or nothing)");
        cursor_.advance(2);
        return true;
    }

    bool scan_content() {
        while (!cursor_.at_end())
            if (cursor_.peek() == '<' ? !scan_markup_at_cursor() : !scan_text()) return false;
        return true;
    }

    bool scan_markup_at_cursor() {
        const Mark where = cursor_.mark();
        if (cursor_.sees("<!--")) return scan_comment();
        if (cursor_.sees("<![CDATA[")) return scan_cdata();
        if (cursor_.sees("<!DOCTYPE"))
            return stop(where, "document types are not allowed here; remove <!DOCTYPE …>");
        if (cursor_.sees("<!")) return stop(where, "an element or a comment <!-- … --> is expected");
        if (cursor_.sees("<?")) return stop(where, "processing instructions are not allowed here; remove it");
        if (cursor_.sees("</")) return scan_end_tag();
        return scan_start_tag();
    }

    bool scan_comment() {
        const Mark where = cursor_.mark();
        cursor_.advance(4);
        if (!cursor_.advance_to("--")) return stop(where, "the comment is not closed; --> is expected");
        if (!cursor_.sees("-->")) return stop(cursor_.mark(), "'--' is not allowed inside a comment");
        cursor_.advance(3);
        return true;
    }

    bool scan_cdata() {
        const Mark where = cursor_.mark();
        if (open_.empty()) return stop(where, "text stands outside the root element");
        cursor_.advance(9);
        note_text(cursor_.mark());
        if (!cursor_.advance_to("]]>"))
            return stop(where, "the CDATA section is not closed; ]]> is expected");
        cursor_.advance(3);
        return true;
    }

    void note_text(Mark where) {
        Mark& text = markup_.elements[open_.back().index].text;
        if (text.line == 0) text = where;
    }

    bool scan_text() {
        cursor_.skip_space();
        if (cursor_.at_end() || cursor_.peek() == '<') return true;
        if (open_.empty()) return stop(cursor_.mark(), "text stands outside the root element");
        note_text(cursor_.mark());
        while (!cursor_.at_end() && cursor_.peek() != '<') {
            if (cursor_.sees("]]>")) note(cursor_.mark(), "]]> closes nothing; write ]]&gt; for the signs");
            check_reference();
            cursor_.advance(1);
        }
        return true;
    }

    void check_reference() {
        if (cursor_.peek() != '&') return;
        if (const auto wrong = reference_error(cursor_.rest())) note(cursor_.mark(), *wrong);
    }

    bool scan_end_tag() {
        const Mark where = cursor_.mark();
        cursor_.advance(2);
        const std::string_view name = cursor_.take_name();
        cursor_.skip_space();
        if (cursor_.peek() != '>') return stop(where, "the end tag is not closed; > is expected");
        cursor_.advance(1);
        if (!open_.empty() && open_.back().name == name) {
            open_.pop_back();
            return true;
        }
        return stop_at_wrong_end_tag(where, std::string(name));
    }

    bool stop_at_wrong_end_tag(Mark where, const std::string& name) {
        if (open_.empty()) return stop(where, "</" + name + "> closes nothing; no element is open here");
        const std::string open_name(open_.back().name);
        const bool belongs_further_out = std::any_of(
            open_.begin(), open_.end(), [&](const OpenElement& element) { return element.name == name; });
        if (belongs_further_out)
            return stop(open_.back().where, "<" + open_name + "> is not closed; /> or </" + open_name +
                                                "> is expected before </" + name + "> in line " +
                                                std::to_string(where.line));
        return stop(where, "</" + name + "> closes nothing; </" + open_name + "> is expected for <" +
                               open_name + "> in line " + std::to_string(open_.back().where.line));
    }

    bool scan_start_tag() {
        const Mark where = cursor_.mark();
        cursor_.advance(1);
        const std::string_view name = cursor_.take_name();
        if (name.empty())
            return stop(where, "an element's name is expected after '<' (&lt; for the sign itself)");
        if (!admit_element(name, where)) return false;
        names_.clear();
        while (true) {
            const bool space = cursor_.skip_space();
            if (cursor_.sees("/>")) {
                cursor_.advance(2);
                open_.pop_back();
                return true;
            }
            if (cursor_.peek() == '>') {
                cursor_.advance(1);
                return true;
            }
            if (!scan_attribute(space)) return false;
        }
    }

    bool admit_element(std::string_view name, Mark where) {
        if (open_.empty() && !markup_.elements.empty())
            return stop(where, "a second root element stands here; only one is expected");
        if (open_.size() >= kMaxDepth)
            return stop(where, "elements nest deeper than " + std::to_string(kMaxDepth) + " levels");
        if (markup_.elements.size() >= kMaxElements)
            return stop(where, "there are more than " + std::to_string(kMaxElements) + " elements");
        if (name.find(':') != std::string_view::npos)
            note(where, "<" + std::string(name) + "> has a prefix; the name alone is expected");
        open_.push_back({name, where, markup_.elements.size()});
        markup_.elements.push_back({where, {}});
        return true;
    }

    bool scan_attribute(bool space_before) {
        const Mark where = cursor_.mark();
        const std::string_view view = cursor_.take_name();
        const std::string name(view);
        if (name.empty()) {
            const std::string element(open_.back().name);
            return stop(where, "an attribute or the end of <" + element + "> with > or /> is expected here");
        }
        if (!space_before) note(where, "a space is expected before the attribute " + name);
        if (names_.size() >= kMaxAttributes)
            return stop(where, "there are more than " + std::to_string(kMaxAttributes) + " attributes");
        if (std::find(names_.begin(), names_.end(), view) != names_.end())
            note(where, "the attribute " + name + " is given twice");
        names_.push_back(view);
        markup_.attributes.push_back({where, {}, 0});
        return scan_value(name, where);
    }

    bool scan_value(const std::string& name, Mark where) {
        cursor_.skip_space();
        if (cursor_.peek() != '=') return stop(where, name + R"( has no value; =" is expected after it)");
        cursor_.advance(1);
        cursor_.skip_space();
        const char quote = cursor_.peek();
        if (quote != '"' && quote != '\'')
            return stop(where, "the value of " + name + " is expected in quotes");
        cursor_.advance(1);
        const std::size_t begin = cursor_.offset();
        markup_.attributes.back().value = cursor_.mark();
        markup_.attributes.back().value_offset = begin;
        while (!cursor_.at_end() && cursor_.peek() != quote && cursor_.peek() != '<') {
            check_reference();
            cursor_.advance(1);
        }
        if (cursor_.at_end() || cursor_.peek() == '<')
            return stop(where, "the value of " + name + " is not closed; " + quote +
                                   " is expected (&lt; for the sign '<')");
        if (cursor_.since(begin).size() > kMaxAttributeBytes)
            note(where,
                 "the value of " + name + " is longer than " + std::to_string(kMaxAttributeBytes) + " bytes");
        cursor_.advance(1);
        return true;
    }

    void check_end() {
        if (!open_.empty()) {
            const std::string name(open_.back().name);
            note(open_.back().where,
                 "<" + name + "> is not closed; </" + name + "> is expected before the end of the file");
        } else if (markup_.elements.empty()) {
            note(cursor_.mark(), "the file has no element");
        }
    }

    Cursor cursor_;
    const std::string& file_;
    Markup markup_;
    std::vector<OpenElement> open_;
    std::vector<std::string_view> names_;  ///< attributes of the element being scanned
    Diagnostics errors_;
};

}  // namespace

tl::expected<Markup, Diagnostics> scan_markup(std::string_view text, const std::string& file) {
    return Scanner(text, file).scan();
}

}  // namespace halfsplit::xml
