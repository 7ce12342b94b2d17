#pragma once
#include <memory>
#include <optional>
#include <utility>

namespace slab {

/// One stage's last result with the input that it was made from; made again only when the input differs.
template <class Key, class Value>
class Remembered {
public:
    template <class Make>
    const std::shared_ptr<const Value>& get(Key key, Make&& make) {
        if (!m_value || !m_key || !(*m_key == key)) {
            m_value = std::make_shared<const Value>(std::forward<Make>(make)());
            m_key = std::move(key);
        }
        return m_value;
    }
    void forget() {
        m_key.reset();
        m_value.reset();
    }
    [[nodiscard]] bool holds(const Key& key) const { return m_value && m_key && *m_key == key; }
    [[nodiscard]] const std::shared_ptr<const Value>& value() const { return m_value; }

private:
    std::optional<Key> m_key;
    std::shared_ptr<const Value> m_value;
};

} // namespace slab
