#include "ui/fit/scene_material.h"
#include <Qt3DRender/QBlendEquation>
#include <Qt3DRender/QBlendEquationArguments>
#include <Qt3DRender/QColorMask>
#include <Qt3DRender/QCullFace>
#include <Qt3DRender/QDepthTest>
#include <Qt3DRender/QEffect>
#include <Qt3DRender/QFilterKey>
#include <Qt3DRender/QGraphicsApiFilter>
#include <Qt3DRender/QMaterial>
#include <Qt3DRender/QNoDepthMask>
#include <Qt3DRender/QParameter>
#include <Qt3DRender/QRenderPass>
#include <Qt3DRender/QShaderProgram>
#include <Qt3DRender/QTechnique>

namespace slab::ui {

using namespace Qt3DRender;

namespace {

constexpr const char* faceVertex = R"(#version 150 core
in vec3 vertexPosition;
in vec3 vertexNormal;
out vec3 worldNormal;
uniform mat4 modelMatrix;
uniform mat4 mvp;
void main() {
    worldNormal = mat3(modelMatrix) * vertexNormal;
    gl_Position = mvp * vec4(vertexPosition, 1.0);
}
)";

// The same light as daylight() in look.cpp.
constexpr const char* faceFragment = R"(#version 150 core
in vec3 worldNormal;
out vec4 colour;
uniform vec4 fill;
void main() {
    float facing = dot(normalize(worldNormal), normalize(vec3(0.45, -0.55, 0.75)));
    float light = 0.86 + (facing > 0.0 ? 0.18 : 0.14) * facing;
    colour = vec4(min(fill.rgb * light, vec3(1.0)), fill.a);
}
)";

constexpr const char* lineVertex = R"(#version 150 core
in vec3 vertexPosition;
in vec3 lineOther;
in vec2 lineSide;
noperspective out vec2 place;
noperspective out float span;
uniform mat4 mvp;
uniform vec2 viewport;
uniform float lineWidth;
uniform float nearer;
void main() {
    vec4 a = mvp * vec4(vertexPosition, 1.0);
    vec4 b = mvp * vec4(lineOther, 1.0);
    float least = 0.001;
    if (a.w < least && b.w > least) a = mix(a, b, (least - a.w) / (b.w - a.w));
    if (b.w < least && a.w > least) b = mix(b, a, (least - b.w) / (a.w - b.w));
    vec2 half_ = viewport * 0.5;
    vec2 pa = a.xy / a.w * half_;
    vec2 pb = b.xy / b.w * half_;
    float length_ = length(pb - pa);
    vec2 along = length_ > 0.0001 ? (pb - pa) / length_ : vec2(1.0, 0.0);
    if (length_ <= 0.0001 && lineSide.y > 0.5) along = -along;
    vec2 across = vec2(-along.y, along.x);
    float r = lineWidth * 0.5 + 1.0;
    vec2 offset = across * lineSide.x * r - along * r;
    gl_Position = vec4(a.xy + offset / half_ * a.w, a.z - nearer * a.w, a.w);
    float flip = lineSide.y > 0.5 ? -1.0 : 1.0;
    place = vec2(lineSide.y > 0.5 ? length_ + r : -r, lineSide.x * r * flip);
    span = length_;
}
)";

constexpr const char* lineFragment = R"(#version 150 core
noperspective in vec2 place;
noperspective in float span;
out vec4 colour;
uniform vec4 ink;
uniform float lineWidth;
void main() {
    float past = max(max(-place.x, place.x - span), 0.0);
    float away = length(vec2(past, place.y));
    float cover = clamp(lineWidth * 0.5 + 0.5 - away, 0.0, 1.0);
    if (cover <= 0.0) discard;
    colour = vec4(ink.rgb, ink.a * cover);
}
)";

QVariant rgba(const QColor& colour, double alpha) {
    return QVariant::fromValue(
        QColor::fromRgbF(colour.redF(), colour.greenF(), colour.blueF(), static_cast<float>(alpha)));
}

QTechnique* makeTechnique(QEffect* effect) {
    auto* technique = new QTechnique(effect);
    technique->graphicsApiFilter()->setApi(QGraphicsApiFilter::OpenGL);
    technique->graphicsApiFilter()->setProfile(QGraphicsApiFilter::CoreProfile);
    technique->graphicsApiFilter()->setMajorVersion(3);
    technique->graphicsApiFilter()->setMinorVersion(2);
    effect->addTechnique(technique);
    return technique;
}

QRenderPass* addPass(QTechnique* technique, const char* name, QShaderProgram* program) {
    auto* renderPass = new QRenderPass(technique);
    renderPass->setShaderProgram(program);
    auto* key = new QFilterKey(renderPass);
    key->setName(QStringLiteral("pass"));
    key->setValue(QString::fromLatin1(name));
    renderPass->addFilterKey(key);
    technique->addRenderPass(renderPass);
    return renderPass;
}

QShaderProgram* makeProgram(const char* vertex, const char* fragment, QEffect* parent) {
    auto* program = new QShaderProgram(parent);
    program->setVertexShaderCode(vertex);
    program->setFragmentShaderCode(fragment);
    return program;
}

void addDepthTest(QRenderPass* renderPass, QDepthTest::DepthFunction function) {
    auto* test = new QDepthTest(renderPass);
    test->setDepthFunction(function);
    renderPass->addRenderState(test);
}

void addBlend(QRenderPass* renderPass) {
    auto* arguments = new QBlendEquationArguments(renderPass);
    arguments->setSourceRgb(QBlendEquationArguments::SourceAlpha);
    arguments->setDestinationRgb(QBlendEquationArguments::OneMinusSourceAlpha);
    // The window itself stays opaque.
    arguments->setSourceAlpha(QBlendEquationArguments::Zero);
    arguments->setDestinationAlpha(QBlendEquationArguments::One);
    renderPass->addRenderState(arguments);
    auto* equation = new QBlendEquation(renderPass);
    equation->setBlendFunction(QBlendEquation::Add);
    renderPass->addRenderState(equation);
    renderPass->addRenderState(new QNoDepthMask(renderPass));
}

void addCull(QRenderPass* renderPass) {
    auto* cull = new QCullFace(renderPass);
    cull->setMode(QCullFace::Back);
    renderPass->addRenderState(cull);
}

} // namespace

QMaterial* makeFaceMaterial(const QColor& fill, double alpha, Qt3DCore::QNode* parent) {
    auto* material = new QMaterial(parent);
    auto* effect = new QEffect(material);
    auto* program = makeProgram(faceVertex, faceFragment, effect);
    auto* technique = makeTechnique(effect);
    if (alpha >= 0.999) {
        auto* solid = addPass(technique, pass::solid, program);
        addDepthTest(solid, QDepthTest::LessOrEqual);
        addCull(solid);
    } else {
        auto* glass = addPass(technique, pass::glass, program);
        addDepthTest(glass, QDepthTest::LessOrEqual);
        addCull(glass);
        addBlend(glass);
        auto* depth = addPass(technique, pass::depth, program);
        addDepthTest(depth, QDepthTest::LessOrEqual);
        addCull(depth);
        auto* mask = new QColorMask(depth);
        mask->setRedMasked(false);
        mask->setGreenMasked(false);
        mask->setBlueMasked(false);
        mask->setAlphaMasked(false);
        depth->addRenderState(mask);
    }
    material->setEffect(effect);
    material->addParameter(new QParameter(QStringLiteral("fill"), rgba(fill, alpha), material));
    return material;
}

QMaterial* makeLineMaterial(const QColor& colour, double width, const char* passName, QParameter* viewport,
                            Qt3DCore::QNode* parent) {
    auto* material = new QMaterial(parent);
    auto* effect = new QEffect(material);
    auto* technique = makeTechnique(effect);
    auto* renderPass = addPass(technique, passName, makeProgram(lineVertex, lineFragment, effect));
    const bool over = qstrcmp(passName, pass::top) == 0;
    addDepthTest(renderPass, over ? QDepthTest::Always : QDepthTest::LessOrEqual);
    addBlend(renderPass);
    material->setEffect(effect);
    material->addParameter(new QParameter(QStringLiteral("ink"), rgba(colour, colour.alphaF()), material));
    material->addParameter(new QParameter(QStringLiteral("lineWidth"), static_cast<float>(width), material));
    const bool edges = qstrcmp(passName, pass::line) == 0;
    material->addParameter(new QParameter(QStringLiteral("nearer"), edges ? 0.00004F : 0.0F, material));
    material->addParameter(viewport);
    return material;
}

} // namespace slab::ui
