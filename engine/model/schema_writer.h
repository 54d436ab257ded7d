#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "engine/model/structure.h"

namespace halfsplit::model::schema {

/// Lines of XML, indented by how many elements are open.
class Lines {
  public:
    void add(const std::string& line);
    void open(const std::string& name, const std::string& attributes = "");
    void close();
    void document(std::string_view text);
    const std::string& text() const { return text_; }

  private:
    std::string text_;
    std::vector<std::string> open_;
};

/// Attributes of several lists; where lists share a name, the first declares it.
struct AttributeWriter {
    Lines& lines;
    bool ids_are_names = true;
    std::vector<std::string_view> written = {};

    bool is_new(std::string_view name);
    void write(std::span<const NumberSpec> numbers, std::span<const WordSpec> words);
};

void write_unique(Lines& lines, const std::string& name, const std::string& selector);
void write_children(Lines& lines, const std::vector<ChildSpec>& children, bool ordered);
void write_simple_types(Lines& lines);

/// The root of the schema, to be closed. `origin` says where its declarations are.
void open_schema(Lines& lines, std::string_view name_space, const std::string& origin);

/// A whole schema of elements that are declared as structures alone, the first being the root.
std::string written_schema(std::string_view name_space, const std::string& origin,
                           std::span<const StructureSpec> structures);

}  // namespace halfsplit::model::schema
