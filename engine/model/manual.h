#pragma once
#include <string>
#include "engine/model/part_kind.h"
namespace halfsplit::model {
std::string parts_manual();
std::string part_manual(const PartKind&);
}  // namespace halfsplit::model
