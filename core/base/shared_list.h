#pragma once
// A list whose copies share what they hold, item by item, until one of them changes it.
#include <atomic>
#include <cstddef>
#include <initializer_list>
#include <iterator>
#include <memory>
#include <utility>
#include <vector>

namespace slab {

/// Like a vector of T to read; what is to be changed is asked for by own(). Lists may be read, copied and
/// changed by different threads, each its own.
template <class T>
class SharedList {
public:
    using value_type = T;

    class const_iterator {
    public:
        using iterator_category = std::random_access_iterator_tag;
        using value_type = T;
        using difference_type = std::ptrdiff_t;
        using pointer = const T*;
        using reference = const T&;

        const_iterator() = default;
        explicit const_iterator(const std::shared_ptr<T>* at) : m_at(at) {}
        reference operator*() const { return **m_at; }
        pointer operator->() const { return m_at->get(); }
        reference operator[](difference_type by) const { return *m_at[by]; }
        const_iterator& operator++() { return ++m_at, *this; }
        const_iterator& operator--() { return --m_at, *this; }
        const_iterator operator++(int) { return const_iterator(m_at++); }
        const_iterator operator--(int) { return const_iterator(m_at--); }
        const_iterator& operator+=(difference_type by) { return m_at += by, *this; }
        const_iterator& operator-=(difference_type by) { return m_at -= by, *this; }
        friend const_iterator operator+(const_iterator i, difference_type by) { return i += by; }
        friend const_iterator operator+(difference_type by, const_iterator i) { return i += by; }
        friend const_iterator operator-(const_iterator i, difference_type by) { return i -= by; }
        friend difference_type operator-(const_iterator a, const_iterator b) { return a.m_at - b.m_at; }
        friend auto operator<=>(const_iterator a, const_iterator b) = default;

    private:
        const std::shared_ptr<T>* m_at = nullptr;
    };

    SharedList() = default;
    SharedList(std::initializer_list<T> items) {
        for (const T& item : items) push_back(item);
    }

    [[nodiscard]] std::size_t size() const { return m_items.size(); }
    [[nodiscard]] bool empty() const { return m_items.empty(); }
    [[nodiscard]] const_iterator begin() const { return const_iterator(m_items.data()); }
    [[nodiscard]] const_iterator end() const { return const_iterator(m_items.data() + m_items.size()); }
    const T& operator[](std::size_t i) const { return *m_items[i]; }
    [[nodiscard]] const T& front() const { return *m_items.front(); }
    [[nodiscard]] const T& back() const { return *m_items.back(); }

    /// The item for this list alone, to be changed.
    T& own(std::size_t i) {
        std::shared_ptr<T>& item = m_items[i];
        if (item.use_count() > 1)
            item = std::make_shared<T>(*item);
        else
            comeAfter(item);
        return *item;
    }
    /// Calls change(item) with every item, each for this list alone.
    template <class Change>
    void ownEach(Change change) {
        for (std::size_t i = 0; i < size(); ++i) change(own(i));
    }
    void push_back(T item) { m_items.push_back(std::make_shared<T>(std::move(item))); }
    T& emplace_back() { return *m_items.emplace_back(std::make_shared<T>()); }
    void append(const SharedList& more) {
        m_items.insert(m_items.end(), more.m_items.begin(), more.m_items.end());
    }
    /// Adds one item of another list.
    void share(const SharedList& from, std::size_t i) { m_items.push_back(from.m_items[i]); }
    void reserve(std::size_t count) { m_items.reserve(count); }
    void clear() { m_items.clear(); }
    void pop_back() { m_items.pop_back(); }
    void erase(std::size_t i) { m_items.erase(m_items.begin() + static_cast<std::ptrdiff_t>(i)); }

    friend bool operator==(const SharedList& a, const SharedList& b) {
        if (a.size() != b.size()) return false;
        for (std::size_t i = 0; i < a.size(); ++i)
            if (a.m_items[i] != b.m_items[i] && !(a[i] == b[i])) return false;
        return true;
    }

private:
    /// Whoever shared the item last has let go of it: what that thread read was read before.
    static void comeAfter([[maybe_unused]] const std::shared_ptr<T>& item) {
#ifdef __SANITIZE_THREAD__ // sees no fences, but what a counter goes through
        std::shared_ptr<T>(item).reset();
#else
        std::atomic_thread_fence(std::memory_order_acquire);
#endif
    }

    std::vector<std::shared_ptr<T>> m_items;
};

} // namespace slab
