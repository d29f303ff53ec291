# SPDX-License-Identifier: MIT
# Engineering mathematics of crimping hose couplings.
#
#   require "ferrule"
#   diameter = Ferrule.crimp_diameter(joint, "20 %")
#   puts diameter, diameter.inch
#
# Functions, quantities and structs are those of the manual; Ferrule::FUNCTIONS, KINDS and STATUSES say which there are,
# and puts Ferrule.help(:crimp_diameter) what one does.
module Ferrule
  # What all errors of this package are; each is a class after the first word of its status, such as StemError.
  module Error
    # function that was called; path of the field at fault, such as "joint.hose.outside", nil where it is not one alone; name and
    # number of the status, nil where an argument is of the wrong kind
    attr_reader :function, :path, :name, :code
  end
end

require "ferrule/core"

module Ferrule
  description = Core.describe
  FUNCTIONS = description[:functions].to_h { |row| [row[:name].to_sym, row] }.freeze
  KINDS = description[:kinds].to_h { |row| [row[:name], row] }.freeze
  STATUSES = description[:statuses].to_h { |row| [row[:name], row] }.freeze
  VERSION = [Core::VERSION_MAJOR, Core::VERSION_MINOR, Core::VERSION_PATCH].join(".").freeze

  # An argument of the wrong kind, or the wrong number of them.
  class TypeError < ::TypeError
    include Error
  end

  STATUSES.each_key do |name|
    word = "#{name[/\A[A-Z]+/].capitalize}Error"
    const_set(word, Class.new(ArgumentError) { include Error }) unless name == "OK" || const_defined?(word, false)
  end

  # A number that carries its unit. It does not change.
  class Quantity
    include Comparable

    # decimal: "," where the text's decimal sign is the comma
    def self.new(value, decimal: nil)
      kind = name.delete_prefix("Ferrule::")
      decimal ? Core.parse(kind, value, decimal) : Core.make(kind, value)
    end

    def +(other) = Core.compute(self, "+", other)
    def -(other) = Core.compute(self, "-", other)
    def *(other) = Core.compute(self, "*", other)
    def /(other) = Core.compute(self, "/", other)
    def -@ = Core.compute(self, "*", -1)
    def +@ = self
    def abs = @base.negative? ? -self : self

    # nil for another kind, so that it is neither equal nor to be sorted with it
    def <=>(other)
      other.instance_of?(self.class) ? @base <=> other.base : nil
    end

    def eql?(other) = other.instance_of?(self.class) && @base.eql?(other.base)
    def hash = [self.class, @base].hash

    # 2 * length
    def coerce(number) = [Factor.new(number), self]

    # Text with decimals and unit, each of which may be left out: ".2f in"
    def format(form = "") = Core.text(self, form)
    def to_s = format
    def inspect = "#<#{self.class} #{self}>"

    protected

    attr_reader :base
  end

  # The number on the left of an operator.
  class Factor
    def initialize(number) = @number = number

    def +(other) = Core.compute(@number, "+", other)
    def -(other) = Core.compute(@number, "-", other)
    def *(other) = Core.compute(@number, "*", other)
    def /(other) = Core.compute(@number, "/", other)
    def <=>(_other) = nil
  end
  private_constant :Factor

  # What structs have besides what Ruby gives to a Struct.
  module Value
    # The same with some members changed.
    def with(**changes) = self.class.new(to_h.merge(changes))

    # How a class is made: of names and values, of a hash or array of them, or of what stands for the first member.
    module Making
      def new(*given, **members) = Core.make(name.delete_prefix("Ferrule::"), members.empty? ? given.fetch(0, {}) : members)
    end
  end

  KINDS.each_value do |kind|
    name, members = kind.values_at(:name, :members)
    if kind[:form] == "quantity"
      made = const_set(name, Class.new(Quantity))
      kind[:names].each { |unit| made.define_method(unit) { Core.number(self, unit) } }
      Core.register(name, made)
    elsif members.any?
      made = const_set(name, Struct.new(*members.map { |member| member[:name].to_sym }, keyword_init: true))
      made.include(Value)
      made.singleton_class.prepend(Value::Making)
      Core.register(name, made)
    end
  end

  # What is known about a function, a class, a list of words or a status.
  def self.help(name)
    require "ferrule/help"
    name = name.to_s.delete_prefix("Ferrule::")
    return HELP[name] if HELP.key?(name)
    return "#{name}\n\n#{STATUSES[name][:sentence]}" if STATUSES.key?(name)
    error = TypeError.new("help: nothing is called '#{name}'")
    error.instance_variable_set(:@function, "help")
    raise error
  end

  # Arguments by place or by name; what is no argument's name belongs to a hash that is the last argument.
  FUNCTIONS.each_key do |name|
    call = Core.method(name)
    names = FUNCTIONS[name][:arguments].map { |argument| argument[:name].to_sym }
    define_singleton_method(name) do |*given, **named|
      unless named.empty?
        rest = names.drop(given.size)
        is_by_name = (named.keys - rest).empty?
        given += is_by_name ? rest[..rest.rindex { named.key?(_1) }].map { named[_1] } : [named]
      end
      call.call(*given)
    rescue Error => error
      error.set_backtrace(caller.drop_while { |line| line.start_with?(__FILE__) }) # where it was called
      raise
    end
  end
end
