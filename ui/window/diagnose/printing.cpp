#include "ui/window/diagnose/printing.h"

#include <utility>

#include "ui/files/readings_file.h"
#include "ui/files/text_files.h"
#include "ui/view/diagram/selection.h"
#include "ui/view/readings_table.h"
#include "ui/view/sheet_html.h"
#include "ui/window/frame/cancelled.h"

namespace halfsplit::window {

void Printing::print(Form form, std::shared_ptr<const model::Circuit> circuit, const std::string& name,
                     std::vector<int> states, std::vector<diagnosis::FilledRow> readings) {
    told_.clear();
    working_.start(
        "writing the sheet",
        [form, circuit = std::move(circuit), name, states = std::move(states),
         readings = std::move(readings)](Progress& progress) -> Printed {
            diagnosis::SheetOptions options;
            options.states = states;
            options.tell = [&progress](int done, int all) { tell_progress(progress, done, all); };
            try {
                const auto sheet = diagnosis::make_sheet(*circuit, options);
                if (!sheet) return {to_text(sheet.error().front()), true};
                const bool is_page = form == Form::page;
                const std::string path = files::unused_path(name, is_page ? ".sheet.html" : ".sheet.csv");
                const std::string text =
                    is_page ? view::sheet_html(*circuit, *sheet, view::diagram::everything(*circuit))
                            : view::csv_text(view::filled_sheet_table(*circuit, *sheet, readings));
                if (!files::write_atomically(path, text)) return {path + " cannot be written", true};
                return {"It is in " + files::whole_path(path), false};
            } catch (const Cancelled&) {
                return {"Stopped; nothing was written.", false};
            }
        });
}

void Printing::advance() {
    if (auto printed = working_.take()) {
        told_ = std::move(printed->told);
        went_wrong_ = printed->went_wrong;
    }
}

void Printing::forget() {
    stop();
    told_.clear();
}

}  // namespace halfsplit::window
