# SPDX-License-Identifier: MIT
package Ferrule;

=encoding utf8

=head1 NAME

Ferrule - engineering mathematics of crimping hose couplings

=head1 SYNOPSIS

    use Ferrule;
    my $diameter = Ferrule::crimp_diameter($joint, '20 %');
    printf "%s, %.4f in\n", $diameter->format('.2f mm'), $diameter->inch;

=head1 DESCRIPTION

Functions, quantities and structs are those of the manual of ferrule, page "From Perl". Functions are exported on request,
all of them with C<use Ferrule ':all'>. C<Ferrule::describe()> says which there are.

L<Ferrule::Functions> has a section for each function, L<Ferrule::Values> for each quantity, struct and list of words.
C<Ferrule::help('crimp_diameter')> gives the same as text.

The crimp data that the manufacturers of coupling and hose publish come first. A computed diameter is a starting point: a trial crimp
and a proof test must confirm it.

=cut

use strict;
use warnings;
use XSLoader;
use Exporter 'import';

our $VERSION;
our (@EXPORT_OK, %EXPORT_TAGS);

XSLoader::load('Ferrule');
$VERSION = join '.', map { no strict 'refs'; ${"Ferrule::VERSION_$_"} } qw(MAJOR MINOR PATCH);

{
    no strict 'refs';
    my $description = Ferrule::describe();
    @EXPORT_OK = grep { defined &{"Ferrule::$_"} } map { $_->{name} } @{$description->{functions}};
    %EXPORT_TAGS = (all => \@EXPORT_OK);

    for my $kind (@{$description->{kinds}}) {
        my $package = "Ferrule::$kind->{name}";
        if ($kind->{form} eq 'quantity') {
            @{"${package}::ISA"} = ('Ferrule::Quantity');
            for my $unit (@{$kind->{names}}) {
                *{"${package}::$unit"} = sub { Ferrule::number($_[0], $unit) };
            }
        } elsif (@{$kind->{members}}) {
            @{"${package}::ISA"} = ('Ferrule::Struct');
            for my $member (map { $_->{name} } @{$kind->{members}}) {
                *{"${package}::$member"} = sub { $_[0]{$member} };
            }
        }
    }
    for my $word ('TYPE', map { $_->{name} =~ /^([A-Z]+)/ } @{$description->{statuses}}) {
        my $class = ucfirst lc $word;
        @{"Ferrule::Error::${class}::ISA"} = ('Ferrule::Error');
    }
}

# What is known about a function, a struct, a quantity, a list of words or a status.
sub help {
    my ($name) = @_;
    require Ferrule::Help;
    $name = '' if @_ != 1 || !defined $name;
    my $text = $Ferrule::Help::TEXT{$name =~ s/^Ferrule:://r};
    return $text if defined $text;
    my ($status) = grep { $_->{name} eq $name } @{Ferrule::describe()->{statuses}};
    return "$name\n\n$status->{sentence}" if $status;
    return _call(sub { die bless {message => "help: nothing is called '$name'", function => 'help'}, 'Ferrule::Error::Type' });
}

# Calls for a method or an operator; an error is raised where that stands.
sub _call {
    my ($call, @arguments) = @_;
    my ($done, $value, $error);
    {
        local $@;
        $done = eval { $value = $call->(@arguments); 1 };
        $error = $@;
    }
    return $value if $done;
    my $level = 0;
    $level++ while (caller $level)[1] eq __FILE__;
    @{$error}{qw(file line)} = (caller $level)[1, 2] if ref $error;
    die $error;
}

# What is made of one thing, or of names and values.
sub _make {
    my ($class, @given) = @_;
    my $kind = $class =~ s/^Ferrule:://r;
    return _call(\&Ferrule::make, $kind, @given == 1 ? $given[0] : {@given});
}

package Ferrule::Quantity;

sub _compute {
    my ($operation) = @_;
    return sub {
        my ($left, $right, $swapped) = @_;
        ($left, $right) = ($right, $left) if $swapped;
        return Ferrule::_call(\&Ferrule::compute, $left, $operation, $right);
    };
}

use overload
    '""' => sub { Ferrule::text($_[0], '') },
    'bool' => sub { 1 },
    '0+' => sub {
        Ferrule::_call(sub { die bless {message => 'a quantity is not a number without a unit: ask for one, as in ->mm',
                                                function => ref $_[0]}, 'Ferrule::Error::Type' }, $_[0]);
    },
    'neg' => sub { Ferrule::_call(\&Ferrule::compute, $_[0], '*', -1) },
    'abs' => sub { Ferrule::_call(\&Ferrule::compute, $_[0], '*', "$_[0]" =~ /^-/ ? -1 : 1) },
    '==' => sub {
        ref $_[0] eq (ref $_[1] || '') && Ferrule::compute($_[0], '-', $_[1]) =~ /^0 /;
    },
    '!=' => sub { !($_[0] == $_[1]) },
    'eq' => sub { "$_[0]" eq "$_[1]" },
    'ne' => sub { "$_[0]" ne "$_[1]" },
    map { $_ => _compute($_) } qw(+ - * / <=>);

# A second value is the decimal sign of the text: ','.
sub new {
    my ($class, @given) = @_;
    return Ferrule::_make(@_) if @given != 2;
    return Ferrule::_call(\&Ferrule::parse, $class =~ s/^Ferrule:://r, @given);
}
sub format { my ($self, $form) = @_; return Ferrule::_call(\&Ferrule::text, $self, $form // '') }

package Ferrule::Struct;

use overload '""' => sub { Ferrule::text($_[0], '') }, 'bool' => sub { 1 }, fallback => 1;

sub new { return Ferrule::_make(@_) }

package Ferrule::Error;

use overload '""' => sub { "$_[0]{message} at $_[0]{file} line $_[0]{line}.\n" }, 'bool' => sub { 1 }, fallback => 1;

sub message { return $_[0]{message} }
sub function { return $_[0]{function} }
sub path { return $_[0]{path} }
sub name { return $_[0]{name} }
sub code { return $_[0]{code} }
sub file { return $_[0]{file} }
sub line { return $_[0]{line} }

1;
