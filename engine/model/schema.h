#pragma once
#include <string>
namespace halfsplit::model {
std::string circuit_schema();
}
