package layout

import (
	"errors"
	"html/template"
	"reflect"
	"strings"
	"text/template/parse"
)

// Template is a template ready to be executed. It may be used by several
// goroutines at once.
type Template struct{ main *body }

// body is what a template writes.
type body struct {
	steps []step
	slots int // how many variables it has; the first is $
}

// step writes a part of a page.
type step interface {
	run(s *state, dot reflect.Value)
}

// errUnknown says that a template holds what this package does not know.
var errUnknown = errors.New("layout: unknown part of a template")

// refuse is written to by a template that is only to be escaped.
type refuse struct{}

func (refuse) Write([]byte) (int, error) { return 0, errUnknown }

// Compile takes a template apart; nil where html/template finds a fault in it or
// it holds what this package does not know.
func Compile(t *template.Template) (compiled *Template) {
	defer func() {
		switch fault := recover(); fault {
		case nil:
		case errUnknown:
			compiled = nil
		default:
			panic(fault)
		}
	}()
	// The first Execute escapes a template and all that it calls, and changes their
	// trees; it fails here with the first byte it writes.
	_ = t.Execute(refuse{}, nil)
	c := &compiler{set: t, bodies: map[string]*body{}}
	return &Template{c.template(t.Name())}
}

// compiler takes one template and those that it calls apart.
type compiler struct {
	set    *template.Template
	bodies map[string]*body
	vars   []string // of the template at hand, as far as they are seen at this place
	most   int      // of them at once
}

// template takes a template apart, once.
func (c *compiler) template(name string) *body {
	if b, ok := c.bodies[name]; ok {
		return b
	}
	t := c.set.Lookup(name)
	if t == nil || t.Tree == nil || t.Tree.Root == nil {
		panic(errUnknown)
	}
	b := &body{}
	c.bodies[name] = b // before it is filled, since it may call itself
	vars, most := c.vars, c.most
	c.vars, c.most = []string{"$"}, 1
	b.steps = c.list(t.Tree.Root)
	b.slots = c.most
	c.vars, c.most = vars, most
	return b
}

// list takes nodes apart; variables set among them end with them.
func (c *compiler) list(list *parse.ListNode) []step {
	if list == nil {
		return nil
	}
	seen := len(c.vars)
	defer func() { c.vars = c.vars[:seen] }()
	var steps []step
	for _, n := range list.Nodes {
		if s := c.node(n); s != nil {
			steps = append(steps, s)
		}
	}
	return steps
}

func (c *compiler) node(n parse.Node) step {
	switch n := n.(type) {
	case *parse.CommentNode:
		return nil
	case *parse.TextNode:
		return text(n.Text)
	case *parse.ActionNode:
		return c.action(n)
	case *parse.IfNode:
		return c.branch(&n.BranchNode, false)
	case *parse.WithNode:
		return c.branch(&n.BranchNode, true)
	case *parse.RangeNode:
		return c.loop(n)
	case *parse.TemplateNode:
		call := &call{}
		if n.Pipe != nil {
			call.data = c.silent(n.Pipe)
		}
		call.body = c.template(n.Name)
		return call
	}
	panic(errUnknown)
}

// action prints a value, or gives it a name.
func (c *compiler) action(n *parse.ActionNode) step {
	if len(n.Pipe.Decl) > 0 {
		value := c.silent(n.Pipe)
		return &set{c.declare(n.Pipe)[0], value}
	}
	// What is printed must have passed an escaper. Without one it is not.
	var chain []string
	for _, command := range n.Pipe.Cmds[1:] {
		name, ok := command.Args[0].(*parse.IdentifierNode)
		if !ok || len(command.Args) != 1 || !strings.HasPrefix(name.Ident, "_html_template_") {
			panic(errUnknown)
		}
		chain = append(chain, name.Ident)
	}
	write, ok := escapers[strings.Join(chain, " ")]
	if !ok {
		panic(errUnknown)
	}
	return &print{c.command(n.Pipe.Cmds[0]), write}
}

// branch is if or with. Its variable is seen in both its lists.
func (c *compiler) branch(n *parse.BranchNode, with bool) step {
	seen := len(c.vars)
	defer func() { c.vars = c.vars[:seen] }()
	b := &branch{with: with, value: c.silent(n.Pipe), slot: -1}
	if len(n.Pipe.Decl) > 0 {
		b.slot = c.declare(n.Pipe)[0]
	}
	b.then, b.otherwise = c.list(n.List), c.list(n.ElseList)
	return b
}

func (c *compiler) loop(n *parse.RangeNode) step {
	seen := len(c.vars)
	defer func() { c.vars = c.vars[:seen] }()
	l := &loop{value: c.silent(n.Pipe), index: -1, element: -1}
	switch slots := c.declare(n.Pipe); len(slots) {
	case 1:
		l.element = slots[0]
	case 2:
		l.index, l.element = slots[0], slots[1]
	}
	l.then, l.otherwise = c.list(n.List), c.list(n.ElseList)
	return l
}

// declare gives the variables of a pipeline their slots.
func (c *compiler) declare(p *parse.PipeNode) []int {
	if p.IsAssign {
		panic(errUnknown)
	}
	var slots []int
	for _, v := range p.Decl {
		slots = append(slots, len(c.vars))
		c.vars = append(c.vars, v.Ident[0])
	}
	c.most = max(c.most, len(c.vars))
	return slots
}

// silent is a pipeline of one command, which nothing is printed of.
func (c *compiler) silent(p *parse.PipeNode) expression {
	if len(p.Cmds) != 1 {
		panic(errUnknown)
	}
	return c.command(p.Cmds[0])
}

// command is an operand with its arguments.
func (c *compiler) command(n *parse.CommandNode) expression {
	var args []expression
	for _, a := range n.Args[1:] {
		args = append(args, c.operand(a, nil))
	}
	return c.operand(n.Args[0], args)
}

func (c *compiler) operand(n parse.Node, args []expression) expression {
	if f, ok := n.(*parse.IdentifierNode); ok {
		if apply, ok := functions[f.Ident]; ok {
			return &function{apply, args}
		}
		panic(errUnknown)
	}
	switch n := n.(type) {
	case *parse.FieldNode:
		return path(dot{}, n.Ident, args)
	case *parse.VariableNode:
		return path(variable(c.slot(n.Ident[0])), n.Ident[1:], args)
	}
	if len(args) > 0 {
		panic(errUnknown)
	}
	switch n := n.(type) {
	case *parse.DotNode:
		return dot{}
	case *parse.PipeNode:
		if len(n.Decl) == 0 {
			return c.silent(n)
		}
	case *parse.StringNode:
		return constant(reflect.ValueOf(n.Text))
	case *parse.BoolNode:
		return constant(reflect.ValueOf(n.True))
	case *parse.NumberNode:
		if n.IsInt && !strings.HasPrefix(n.Text, "'") {
			return constant(reflect.ValueOf(int(n.Int64)))
		}
	}
	panic(errUnknown)
}

// slot is where a variable lies: the last of its name.
func (c *compiler) slot(name string) int {
	for i := len(c.vars) - 1; i >= 0; i-- {
		if c.vars[i] == name {
			return i
		}
	}
	panic(errUnknown)
}

// path reads fields of fields; the arguments go to the last.
func path(from expression, names []string, args []expression) expression {
	for i, name := range names {
		f := &field{of: from, name: name}
		if i == len(names)-1 {
			f.args = args
		}
		from = f
	}
	if len(names) == 0 && len(args) > 0 {
		panic(errUnknown)
	}
	return from
}
