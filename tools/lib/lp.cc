#include "lib/lp.h"

#include <fmt/core.h>

#include <algorithm>
#include <map>

namespace tenwinters {
namespace {

// Sums of whole multiples of names, broken into lines that every reader takes.
class Terms {
 public:
  void add(std::int64_t factor, const std::string& name) {
    if (factor == 0) return;
    const std::string text = fmt::format("{} {} {}", factor < 0 ? "-" : "+", factor < 0 ? -factor : factor, name);
    if (column_ + text.size() > 100) {
      text_ += "\n ";
      column_ = 0;
    }
    text_ += " " + text;
    column_ += text.size() + 1;
  }
  [[nodiscard]] bool empty() const { return text_.empty(); }
  [[nodiscard]] const std::string& text() const { return text_; }

 private:
  std::string text_;
  std::size_t column_ = 0;
};

class Writer {
 public:
  Writer(const PlanProblem& problem, const std::vector<Misfit>& misfits) : problem_(problem), misfits_(misfits) {}

  std::string write() {
    for (std::size_t i = 0; i < problem_.trees.size(); ++i) binary(tree(i));
    limits();
    trees();
    months();
    rooms();
    std::string out = "\\ Value of a yard plan, in points. x: tree planted or kept; p: it has a partner for its\n"
                      "\\ pollen; s: it gets pollen that makes it seedy; w: such pollen is about; m: month with ripe\n"
                      "\\ fruit; d: what keeps a set of crowns out that the plot cannot hold.\n";
    for (std::size_t i = 0; i < problem_.trees.size(); ++i) {
      const PlanTree& t = problem_.trees[i];
      out += fmt::format("\\ {} = {}{}{}{}, {} cm wide\n", tree(i), t.id, t.rootstock.empty() ? "" : " on " + t.rootstock,
                         t.container ? ", in a pot" : "", t.existing ? ", stands already" : "", t.crown_cm);
    }
    out += fmt::format("Maximize\n value:{}\nSubject To\n{}Binaries\n", value_.empty() ? " 0 x0" : value_.text(), rows_);
    std::size_t column = 0;
    for (const std::string& name : binaries_) {
      out += " " + name;
      column += name.size() + 1;
      if (column > 90) {
        out += "\n";
        column = 0;
      }
    }
    return out + "\nEnd\n";
  }

 private:
  static std::string tree(std::size_t i) { return fmt::format("x{}", i); }
  void binary(const std::string& name) { binaries_.push_back(name); }
  void row(const Terms& terms, const char* relation, std::int64_t right) {
    if (!terms.empty()) rows_ += fmt::format(" r{}:{} {} {}\n", ++row_count_, terms.text(), relation, right);
  }

  void limits() {
    Terms count, room, work, carried;
    std::map<std::string, Terms> same;
    std::map<std::string, int> ways;
    for (std::size_t i = 0; i < problem_.trees.size(); ++i) {
      const PlanTree& t = problem_.trees[i];
      count.add(1, tree(i));
      if (!t.fixed) room.add(crown_room(t.crown_cm), tree(i));
      work.add(t.work_tenths, tree(i));
      carried.add(t.carried ? 1 : 0, tree(i));
      const std::string one = t.existing ? fmt::format("{:08}", t.slot) : t.id;
      same[one].add(1, tree(i));
      ++ways[one];
    }
    row(count, "<=", problem_.trees_at_most);
    row(room, "<=", plot_room(problem_.plot));
    if (problem_.work_tenths_at_most >= 0) row(work, "<=", problem_.work_tenths_at_most);
    if (problem_.carried_at_most >= 0) row(carried, "<=", problem_.carried_at_most);
    for (const auto& [id, terms] : same)
      if (ways[id] > 1) row(terms, "<=", 1);
  }

  // The value of each tree, with what pollen does for it and to it.
  void trees() {
    for (std::size_t i = 0; i < problem_.trees.size(); ++i) {
      const PlanTree& t = problem_.trees[i];
      const bool wants_partner = t.alone_loss > 0 || t.needs_partner;
      value_.add(own_value(t, problem_.weights) - (wants_partner ? t.alone_loss : 0), tree(i));
      if (wants_partner) {
        const std::string has = fmt::format("p{}", i);
        binary(has);
        value_.add(t.alone_loss, has);
        Terms planted, partner;
        planted.add(1, has);
        planted.add(-1, tree(i));
        row(planted, "<=", 0);
        partner.add(1, has);
        for (std::size_t j = 0; j < problem_.trees.size(); ++j)
          if (sets_fruit_of(problem_.trees[j], t)) partner.add(-1, tree(j));
        row(partner, "<=", 0);
      }
      if (t.seed_loss > 0) {
        const std::string seedy = fmt::format("s{}", i), about = pollen_for(t);
        if (about.empty()) continue;
        binary(seedy);
        value_.add(-t.seed_loss, seedy);
        Terms both;  // planted and such pollen about: seedy
        both.add(1, tree(i));
        both.add(1, about);
        both.add(-1, seedy);
        row(both, "<=", 1);
      }
    }
  }

  // The variable that is 1 if any tree stands whose pollen makes seeds in `taker`; trees with the same
  // set of such neighbours share it.
  std::string pollen_for(const PlanTree& taker) {
    std::vector<std::size_t> givers;
    for (std::size_t j = 0; j < problem_.trees.size(); ++j)
      if (makes_seeds_in(problem_.trees[j], taker)) givers.push_back(j);
    if (givers.empty()) return "";
    const auto [at, fresh] = pollen_.try_emplace(givers, fmt::format("w{}", pollen_.size()));
    if (fresh) {
      binary(at->second);
      for (std::size_t j : givers) {
        Terms terms;
        terms.add(1, tree(j));
        terms.add(-1, at->second);
        row(terms, "<=", 0);
      }
    }
    return at->second;
  }

  void months() {
    for (unsigned m = 0; m < 12; ++m) {
      Terms terms;
      const std::string name = fmt::format("m{}", m + 1);
      for (std::size_t i = 0; i < problem_.trees.size(); ++i) {
        const PlanTree& t = problem_.trees[i];
        if ((t.ripe >> m & 1) != 0) terms.add(-1, t.needs_partner ? fmt::format("p{}", i) : tree(i));
      }
      if (terms.empty()) continue;
      terms.add(1, name);
      binary(name);
      row(terms, "<=", 0);
      value_.add(problem_.weights.month, name);
    }
  }

  // A set of crowns that the plot cannot hold is kept out by having too few trees of one of its widths,
  // or by taking out one of its fixed trees.
  void rooms() {
    for (std::size_t k = 0; k < misfits_.size(); ++k) {
      const Misfit& misfit = misfits_[k];
      const bool one_way = misfit.wider.size() + misfit.fixed.size() == 1;
      Terms any;
      std::size_t ways = 0;
      for (const auto& [crown, count] : misfit.wider) {
        Terms terms;
        for (std::size_t i = 0; i < problem_.trees.size(); ++i)
          if (!problem_.trees[i].fixed && (problem_.trees[i].crown_cm + 49) / 50 * 50 >= crown) terms.add(1, tree(i));
        if (one_way) {
          row(terms, "<=", count - 1);
          continue;
        }
        const std::int64_t slack = problem_.trees_at_most - count + 1;  // without this way, any number
        const std::string way = fmt::format("d{}_{}", k, ways++);
        binary(way);
        any.add(1, way);
        terms.add(slack, way);
        row(terms, "<=", count - 1 + slack);
      }
      for (int index : misfit.fixed) {
        if (!one_way) any.add(-1, tree(static_cast<std::size_t>(index)));
        else rows_ += fmt::format(" r{}: {} <= 0\n", ++row_count_, tree(static_cast<std::size_t>(index)));
      }
      if (!one_way) row(any, ">=", 1 - static_cast<std::int64_t>(misfit.fixed.size()));
    }
  }

  const PlanProblem& problem_;
  const std::vector<Misfit>& misfits_;
  Terms value_;
  std::string rows_;
  std::vector<std::string> binaries_;
  std::map<std::vector<std::size_t>, std::string> pollen_;
  int row_count_ = 0;
};

}  // namespace

std::string plan_to_lp(const PlanProblem& problem, const std::vector<Misfit>& misfits) { return Writer(problem, misfits).write(); }

}  // namespace tenwinters
