#pragma once

#include <string>
#include <vector>

#include "engine/xml/writer.h"

namespace halfsplit::view {

// Pages are built as trees and written by engine/xml/writer.h, so that everything people wrote is escaped.

/// An element of a class, "" for none; what people read, with the signs of units.
xml::WrittenElement element(const std::string& name, const std::string& kind, const std::string& text);

/// One that holds others.
xml::WrittenElement holder(const std::string& name, const std::string& kind = "");

/// A table with a head row and body rows; columns of class "number" are set to the right.
xml::WrittenElement html_table(const std::string& kind, const std::vector<std::string>& headings,
                               const std::vector<std::vector<std::string>>& rows,
                               const std::vector<bool>& is_number = {});

/// The whole page. `style` must hold nothing XML would escape.
std::string html_page(const std::string& title, const std::string& style, xml::WrittenElement body);

/// How reports look on a screen and on A4.
extern const char* const kReportStyle;

}  // namespace halfsplit::view
