#include "circuit/shortest_ways.hpp"

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/dijkstra_shortest_paths.hpp>
#include <limits>

namespace idlepoint::circuit {

std::vector<std::optional<double>> distances_from(std::size_t start,
                                                  std::size_t vertex_count,
                                                  const std::vector<Arrow>& arrows) {
  using Graph = boost::adjacency_list<boost::vecS,
                                      boost::vecS,
                                      boost::directedS,
                                      boost::no_property,
                                      boost::property<boost::edge_weight_t, double>>;
  Graph graph(vertex_count);
  for (const Arrow& arrow : arrows) boost::add_edge(arrow.from, arrow.to, arrow.cost, graph);
  std::vector<double> sums(vertex_count);
  boost::dijkstra_shortest_paths(graph, start, boost::distance_map(sums.data()));
  std::vector<std::optional<double>> distances;
  for (const double sum : sums) {
    const bool is_reached = sum < std::numeric_limits<double>::max();
    distances.push_back(is_reached ? std::optional(sum) : std::nullopt);
  }
  return distances;
}

}  // namespace idlepoint::circuit
