#include "core/document/texts.h"
#include "core/document/describe.h"

namespace slab::detail {
namespace {

/// Visitor that meets every text; `Visit(Role, text)`.
template <class Visit>
class Texts {
public:
    explicit Texts(Visit visit) : m_visit(visit) {}
    template <class S>
    void text(const char*, S& to, const Spec& spec) {
        m_visit(spec.role, to);
    }
    template <class B>
    void flag(const char*, B&) {}
    template <class D>
    void real(const char*, D&) {}
    template <class I>
    void version(const char*, I&) {}
    template <class B>
    void choice(const char*, B&, Words) {}
    template <class E>
    void pick(const char*, E&, Words, const Spec&) {}
    template <class S>
    void names(const char*, S& to, const Spec& spec) {
        for (auto& one : to) m_visit(spec.role, one);
    }
    template <class S>
    void pair(const char*, S& a, S& b, const Spec& spec) {
        m_visit(spec.role, a);
        m_visit(spec.role, b);
    }
    template <class M>
    void map(const char*, M& to, const Spec& spec) {
        for (auto& one : to) entry(one, spec);
    }
    template <class T>
    void object(const char*, T& to) {
        fields(*this, to);
    }
    template <class L>
    void list(const char*, L& to, const Spec&) {
        for (auto& one : to) fields(*this, one);
    }
    template <class S>
    void shape(const char*, S& to) {
        std::visit([this](auto& s) { fields(*this, s); }, to);
    }
    template <class X>
    void rest(X& extra) {
        for (auto& [key, value] : extra) {
            m_visit(Role::label, key);
            m_visit(Role::label, value);
        }
    }

private:
    Visit m_visit;
    template <Is<NamedText> T>
    void entry(T& one, const Spec& spec) {
        m_visit(Role::solid, one.name);
        m_visit(spec.role, one.value);
    }
    template <Is<PlateMaterial> T>
    void entry(T& one, const Spec& spec) {
        m_visit(Role::plate, one.plates);
        m_visit(spec.role, one.stock);
    }
};

} // namespace

void eachText(Project& project, const std::function<void(Role, std::string&)>& visit) {
    Texts texts([&](Role role, std::string& text) { visit(role, text); });
    fields(texts, project);
}

std::size_t bytesOf(const Project& p) {
    std::size_t bytes = sizeof(Project);
    Texts texts([&](Role, const std::string& text) {
        bytes += sizeof(std::string) + (text.capacity() > 15 ? text.capacity() + 16 : 0);
    });
    fields(texts, p);
    return bytes;
}

} // namespace slab::detail
