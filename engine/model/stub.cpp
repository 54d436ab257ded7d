#include "engine/model/manual.h"
#include "engine/model/schema.h"
namespace halfsplit::model { std::string parts_manual(){return {};} std::string part_manual(const PartKind&){return {};} std::string circuit_schema(){return {};} }
