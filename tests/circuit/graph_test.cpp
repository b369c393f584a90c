// Oracle: graphs whose distances and pieces are known by construction: ladders, rings, random
// forests.
#include <catch2/catch.hpp>
#include <random>
#include <set>

#include "circuit/drawing.hpp"
#include "circuit/topology.hpp"
#include "circuit/topology_graph.hpp"

namespace idlepoint::circuit {

TEST_CASE("The way round a ring is the shorter one", "[circuit][analytic]") {
  const std::size_t ring = 11;
  std::vector<Branch> branches;
  for (std::size_t node = 0; node < ring; ++node) {
    branches.push_back({NodeId{node}, NodeId{(node + 1) % ring}});
  }
  for (std::size_t to = 1; to < ring; ++to) {
    CHECK(way_between(ring, branches, NodeId{0}, NodeId{to}).size() == std::min(to, ring - to));
  }
  CHECK(way_between(ring + 1, branches, NodeId{0}, NodeId{ring}).empty());
  CHECK(loop_closers(ring, branches) == std::vector<std::size_t>{ring - 1});
}

TEST_CASE("Trees, pieces and loops of a graph add up", "[circuit][identity]") {
  std::mt19937 generator(7);  // Of the standard: the same bits everywhere.
  for (int round = 0; round < 50; ++round) {
    const std::size_t nodes = 2 + generator() % 40;
    std::vector<Branch> branches(generator() % 60);
    for (Branch& branch : branches) {
      branch = {NodeId{generator() % nodes}, NodeId{generator() % nodes}};
    }
    const auto groups = joined_groups(nodes, branches);
    const std::set<std::size_t> pieces(groups.begin(), groups.end());
    // Euler: nodes - branches + independent loops = pieces.
    CHECK(nodes + loop_closers(nodes, branches).size() == pieces.size() + branches.size());
    for (const Branch& branch : branches) CHECK(groups[branch.a.index] == groups[branch.b.index]);
  }
}

TEST_CASE("A ladder of ten thousand parts is sound, and unsound when its foot is lifted",
          "[circuit][analytic]") {
  Drawing ladder;
  ladder.circuit.nodes.reserve(5002);
  for (std::size_t node = 1; node <= 5001; ++node) {
    ladder.circuit.nodes.emplace_back().name = "n" + std::to_string(node);
  }
  const auto rung = [&](std::size_t a, std::size_t b) {
    Part part;
    part.name = "R" + std::to_string(ladder.circuit.parts.size());
    part.value = 1e3;
    part.leads = {NodeId{a}, NodeId{b}};
    ladder.circuit.parts.push_back(part);
  };
  for (std::size_t node = 1; node <= 5000; ++node) {
    rung(node, node + 1);
    rung(node, node % 3 == 0 ? 0 : node + 1);
  }
  rung(5001, 0);
  CHECK(check_topology(ladder.circuit).empty());

  for (Part& part : ladder.circuit.parts) {
    for (auto& lead : part.leads) {
      if (lead == ground) lead = NodeId{1};
    }
  }
  CHECK(kinds_of(ladder) == std::vector<std::string>{"untied-point"});
}

}  // namespace idlepoint::circuit
