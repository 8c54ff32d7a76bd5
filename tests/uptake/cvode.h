// A tree's equations (independent.h) moved through time by CVODE of SUNDIALS (Hindmarsh et al. 2005, ACM Trans. Math. Softw. 31:363-396):
// backward differentiation of variable order and step, relative tolerance 1e-9, absolute 1e-10 MPa and L.
#pragma once
#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sundials/sundials_context.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include <memory>
#include <stdexcept>

#include "uptake/independent.h"

namespace independent {

// Starts at rest at the day's first hour. It sets out anew wherever the equations jump: at full hours, when the weather changes, and
// when the ports are drilled.
class Cvode {
 public:
  explicit Cvode(const Tree& tree) : tree_(tree) {
    require(SUNContext_Create(nullptr, &context_));
    context_owner_.reset(&context_);
    state_.reset(N_VNew_Serial(4, context_));
    matrix_.reset(SUNDenseMatrix(4, 4, context_));
    solver_.reset(SUNLinSol_Dense(state_.get(), matrix_.get(), context_));
    memory_.reset(CVodeCreate(CV_BDF, context_));
    if (!state_ || !matrix_ || !solver_ || !memory_) throw std::runtime_error("CVODE has no memory");
    set(tree.at_rest());
    require(CVodeInit(memory_.get(), slope, 0.0, state_.get()));
    require(CVodeSStolerances(memory_.get(), 1e-9, 1e-10));
    require(CVodeSetLinearSolver(memory_.get(), solver_.get(), matrix_.get()));
    require(CVodeSetUserData(memory_.get(), this));
    require(CVodeSetMaxNumSteps(memory_.get(), 100000));
  }

  [[nodiscard]] State state() const {
    const double* y = N_VGetArrayPointer(state_.get());
    return {y[0], y[1], y[2], y[3]};
  }

  // Drills the ports and opens the valves, now.
  void drill() {
    drilling_ = tree_.drill(state(), now_h_);
    fresh_ = true;
  }

  // On to `until_h`, hours after the day's first hour, within the hour that has begun.
  void move(std::size_t hour, double until_h) {
    if (hour != hour_ || fresh_) require(CVodeReInit(memory_.get(), now_h_, state_.get()));
    hour_ = hour;
    fresh_ = false;
    require(CVodeSetStopTime(memory_.get(), until_h));
    require(CVode(memory_.get(), until_h, state_.get(), &now_h_, CV_NORMAL));
  }

 private:
  struct Free {
    void operator()(SUNContext* context) const { SUNContext_Free(context); }
    void operator()(N_Vector vector) const { N_VDestroy(vector); }
    void operator()(SUNMatrix matrix) const { SUNMatDestroy(matrix); }
    void operator()(SUNLinearSolver solver) const { SUNLinSolFree(solver); }
    void operator()(void* memory) const { CVodeFree(&memory); }
  };

  static void require(int flag) {
    if (flag < 0) throw std::runtime_error("CVODE failed with flag " + std::to_string(flag));
  }
  static int slope(double t_h, N_Vector at, N_Vector slope, void* self) {
    const auto& own = *static_cast<const Cvode*>(self);
    const double* y = N_VGetArrayPointer(at);
    const State s = own.tree_.slope({y[0], y[1], y[2], y[3]}, t_h, own.hour_, own.drilling_);
    double* out = N_VGetArrayPointer(slope);
    out[0] = s.base_mpa;
    out[1] = s.crown_mpa;
    out[2] = s.lumens_l;
    out[3] = s.volume_l;
    return 0;
  }
  void set(const State& s) {
    double* y = N_VGetArrayPointer(state_.get());
    y[0] = s.base_mpa;
    y[1] = s.crown_mpa;
    y[2] = s.lumens_l;
    y[3] = s.volume_l;
  }

  const Tree& tree_;
  SUNContext context_{};
  std::unique_ptr<SUNContext, Free> context_owner_;  // the others are released before their context
  std::unique_ptr<_generic_N_Vector, Free> state_;
  std::unique_ptr<_generic_SUNMatrix, Free> matrix_;
  std::unique_ptr<_generic_SUNLinearSolver, Free> solver_;
  std::unique_ptr<void, Free> memory_;
  std::optional<Drilling> drilling_;
  std::size_t hour_ = 0;
  bool fresh_ = false;
  double now_h_ = 0.0;
};

}  // namespace independent
