#include "ui/window/host/picture.h"

#include <GLFW/glfw3.h>
#include <stb_image_write.h>

#include <cstddef>
#include <vector>

#include "engine/base/index.h"

namespace halfsplit::window {

bool write_picture(const std::string& path, int width, int height) {
    constexpr int kChannels = 3;
    std::vector<unsigned char> pixels(at(width) * at(height) * at(kChannels));
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    glReadPixels(0, 0, width, height, GL_RGB, GL_UNSIGNED_BYTE, pixels.data());
    // OpenGL's first line is the lowest.
    stbi_flip_vertically_on_write(1);
    return stbi_write_png(path.c_str(), width, height, kChannels, pixels.data(), width * kChannels) != 0;
}

}  // namespace halfsplit::window
