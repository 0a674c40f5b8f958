package answers_test

import (
	"context"
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/answers"
)

// line is a line of blocks whose hooks move inwards; the third has no length.
func line(t testing.TB) func(i int) (answers.Job, error) {
	c := handled(t)
	return func(i int) (answers.Job, error) {
		e := c.Subject.(stages.Element)
		e.Mark = fmt.Sprintf("B-%d", i)
		plan := append(stages.Plan{}, c.Plan...)
		lift := plan[1].(stages.Lift)
		lift.On = loops(2.2+0.05*float64(i), 9.8-0.05*float64(i))
		plan[1] = lift
		switch i {
		case 2:
			e.Length = -1
		case 3:
			return answers.Job{}, errors.New("no drawing")
		case 4:
			plan[1] = breaking{}
		}
		return answers.Job{Subject: e, Plan: plan, Standard: c.Standard}, nil
	}
}

type breaking struct{}

func (breaking) Situations(stages.History) ([]stages.Situation, error) { panic("broken") }

func TestScreenIsInOrderAndReportsTheBad(t *testing.T) {
	job := line(t)
	calls := 0
	list, err := answers.Screen(context.Background(), 16, job, func(done int) {
		calls++
		require.Equal(t, calls, done)
	})
	require.NoError(t, err)
	require.Equal(t, 16, calls)
	passes := 0
	for i, s := range list {
		if i >= 2 && i <= 4 {
			require.ErrorIs(t, s.Err, answers.ErrAnswer)
			require.False(t, s.Passes)
			continue
		}
		require.NoError(t, s.Err)
		require.Equal(t, fmt.Sprintf("B-%d", i), s.Mark)
		require.Len(t, s.Stages, 3)
		j, err := job(i)
		require.NoError(t, err)
		_, reserve, err := stages.Case{Subject: j.Subject, Plan: j.Plan, Stage: 2, Standard: j.Standard}.Worst()
		require.NoError(t, err)
		require.Equal(t, reserve, s.Stages[1].Reserve)
		if s.Passes {
			passes++
		}
	}
	require.ErrorContains(t, list[2].Err, `element 2 "B-2"`)
	require.ErrorIs(t, list[2].Err, stages.ErrStage)
	require.ErrorContains(t, list[3].Err, "no drawing")
	require.ErrorContains(t, list[4].Err, "panicked: broken")
	require.Positive(t, passes)
	require.Less(t, passes, 13)
}

func TestScreenStopsWithItsContext(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	begun := 0
	list, err := answers.Screen(ctx, 200, line(t), func(done int) {
		if begun = done; done == 6 {
			stop()
		}
	})
	require.ErrorIs(t, err, context.Canceled)
	require.Less(t, begun, 20)
	require.ErrorIs(t, list[199].Err, context.Canceled)
	_, err = answers.Screen(context.Background(), 3, nil, nil)
	require.ErrorIs(t, err, answers.ErrAnswer)
	list, err = answers.Screen(context.Background(), 0, line(t), nil)
	require.NoError(t, err)
	require.Empty(t, list)
}
