#include "ui/files/scenario_file.h"

#include <boost/uuid/name_generator_sha1.hpp>
#include <boost/uuid/uuid_io.hpp>

#include "ui/files/text_files.h"

namespace halfsplit::files {

tl::expected<ScenarioOnDisk, Diagnostics> read_scenario_on_disk(const std::string& path) {
    std::string content;
    const model::TextSource texts = file_texts();
    auto read = practice::read_scenario(path, [&](const std::string& each) {
        auto text = texts(each);
        if (text) content += std::to_string(text->size()) + '\n' + *text;
        return text;
    });
    if (!read) return tl::unexpected(read.error());
    return ScenarioOnDisk{std::move(*read),
                          to_string(boost::uuids::name_generator_sha1(boost::uuids::ns::oid())(content))};
}

}  // namespace halfsplit::files
